#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Simulates twelve invented bins with an ODE solver from outside (scipy's LSODA) and reads them badly.

The law is dT/dt = q(t) - (T - Ta(t))/tau. Air: a daily swing, a slow change and a cold snap. Readings: once or twice
a day at irregular hours, some missed, scatter of one standard deviation of 0.4 K, written to half a degree.
Outside: read at the same moments, scatter 0.3 K, written to half a degree.

Run from the top of the project:
    /usr/bin/python3 tests/published/heat_balance/simulate.py
It writes bin_01.csv to bin_12.csv beside itself. Debian: python3-scipy 1.10.1.
"""
import pathlib
import numpy as np
import scipy
from scipy.integrate import quad, solve_ivp

HERE = pathlib.Path(__file__).parent


def air(hour, mean, swing):
    snap = -6.0 if 200 <= hour < 260 else 0.0
    return mean + swing * np.sin(2 * np.pi * (hour - 9) / 24) + 2.0 * np.sin(2 * np.pi * hour / 500) + snap


def rate(hour, top, rest):
    """Heat-making, K/h: up within two days, steady, fading from day 8, over by day 13 but for a rest."""
    up = min(1.0, hour / 40.0)
    fade = np.clip((312.0 - hour) / 120.0, 0.0, 1.0)
    return max(rest, top * up * fade)


def simulate(name, seed, tau, top, rest, mean, swing):
    random = np.random.default_rng(seed)
    days = np.arange(0, 30)
    hours = [d * 24 + h for d in days for h in ((8,) if d % 3 else (8, 18))]
    hours = np.array(sorted(h + random.uniform(-2.5, 2.5) for h in hours if random.uniform() > 0.08))
    hours = np.round(hours[hours > 0] * 60) / 60
    law = lambda t, y: [rate(t, top, rest) - (y[0] - air(t, mean, swing)) / tau]
    solved = solve_ivp(law, (0, 720), [14.0], method='LSODA', t_eval=hours, rtol=1e-9, atol=1e-9, max_step=0.25)
    half = lambda value: np.round(value * 2) / 2
    with open(HERE / f'{name}.csv', 'w') as out:
        out.write(f'# scipy {scipy.__version__} LSODA, seed {seed}, tau_hours {tau}, top {top} K/h, rest {rest} K/h, '
                  f'air mean {mean}, swing {swing}\n')
        out.write('hour,read,read_outside,true_mean_rate_since_last\n')
        before = 0.0
        for hour, true in zip(hours, solved.y[0]):
            mean_rate = quad(rate, before, hour, args=(top, rest), limit=200)[0] / (hour - before)
            read = half(true + random.normal(0, 0.4))
            outside = half(air(hour, mean, swing) + random.normal(0, 0.3))
            out.write(f'{hour:.4f},{read:.1f},{outside:.1f},{mean_rate:.6f}\n')
            before = hour


for number in range(12):
    random = np.random.default_rng(1000 + number)
    tau = float(np.round(random.uniform(25, 90)))
    steady = random.uniform(46, 58)  # excess over the air that full heat-making holds, K
    simulate(f'bin_{number + 1:02}', 11 + number, tau, round(steady / tau, 3), (0.0, 0.0, 0.1)[number % 3],
             float(np.round(random.uniform(4, 13))), 3.0)
