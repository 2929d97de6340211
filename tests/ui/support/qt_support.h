// SPDX-License-Identifier: GPL-3.0-or-later
// What tests of the window share.
#pragma once

#include <QAbstractButton>
#include <QApplication>
#include <QLabel>
#include <QStringList>
#include <QTest>
#include <QThreadPool>
#include <QWidget>
#include <catch2/catch.hpp>
#include <functional>

namespace Catch {
template <>
struct StringMaker<QString> {
    static std::string convert(const QString& text) { return '"' + text.toStdString() + '"'; }
};
}  // namespace Catch

namespace midden::testing {

/// Fails the test case if Qt complains about anything while it lives.
class NoQtWarnings {
  public:
    NoQtWarnings() {
        complaints().clear();
        before_ = qInstallMessageHandler(&NoQtWarnings::hear);
    }
    ~NoQtWarnings() {
        qInstallMessageHandler(before_);
        CHECK(complaints().join(QLatin1Char{'\n'}) == QString{});
    }
    NoQtWarnings(const NoQtWarnings&) = delete;
    NoQtWarnings& operator=(const NoQtWarnings&) = delete;

  private:
    static QStringList& complaints() {
        static QStringList heard;
        return heard;
    }
    static void hear(QtMsgType type, const QMessageLogContext& /*context*/, const QString& message) {
        // The offscreen platform says this whenever a window or a popup is shown.
        const bool ordinary = message.startsWith(QLatin1String{"This plugin does not support"});
        if (type != QtDebugMsg && type != QtInfoMsg && !ordinary) {
            complaints().append(message);
        }
    }

    QtMessageHandler before_;
};

/// As long as anything may take on a machine that has other things to do, in milliseconds. What never comes fails then.
inline constexpr int aMinute = 60'000;

inline bool waitUntil(const std::function<bool()>& isSo) {
    return QTest::qWaitFor(isSo, aMinute);
}

/// Until nothing goes on beside the window's thread, and what was found there is shown.
inline void waitForBackgroundWork() {
    QCoreApplication::processEvents();
    if (auto* threads = QCoreApplication::instance()->findChild<QThreadPool*>()) {
        threads->waitForDone();
    }
    QCoreApplication::processEvents();
}

/// With ordinary spaces in place of those that do not break.
inline QString plain(QString text) {
    return text.replace(QChar{0xA0}, QLatin1Char{' '}).replace(QChar{0x202F}, QLatin1Char{' '});
}

/// Widgets the keyboard can reach that a screen reader could not name.
inline QStringList unnamed(const QWidget& window) {
    QStringList found;
    for (const QWidget* widget : window.findChildren<QWidget*>()) {
        const auto* button = qobject_cast<const QAbstractButton*>(widget);
        const bool speaks = !widget->accessibleName().isEmpty() || (button != nullptr && !button->text().isEmpty());
        const bool ofQt = widget->objectName().startsWith(QLatin1String{"qt_"}) || widget->window() != &window;
        if (widget->focusPolicy() != Qt::NoFocus && widget->focusProxy() == nullptr && !speaks && !ofQt) {
            found.append(QLatin1String{widget->metaObject()->className()} + QLatin1Char{' '} + widget->objectName() +
                         QLatin1String{" in "} + QLatin1String{widget->parentWidget()->metaObject()->className()});
        }
    }
    return found;
}

}  // namespace midden::testing
