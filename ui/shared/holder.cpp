// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shared/holder.h"

#include <sys/stat.h>
#include <unistd.h>

#include <fstream>
#include <sstream>
#include <string>

namespace midden::ui {

namespace {

/// One line of /proc/locks (man 5 proc): "1: POSIX ADVISORY WRITE 4711 08:01:131090 1073741825 1073741825".
bool isWriterOf(const std::string& line, ino_t inode, long& process) {
    std::istringstream words{line};
    std::string number;
    std::string kind;
    std::string manner;
    std::string access;
    std::string place;
    words >> number >> kind >> manner >> access >> process >> place;
    return words && kind == "POSIX" && access == "WRITE" && process != ::getpid() &&
           place.ends_with(':' + std::to_string(inode));
}

}  // namespace

QString lockHolder(const std::filesystem::path& file) {
    struct stat status {};
    if (::stat(file.c_str(), &status) != 0) {
        return {};
    }
    std::ifstream locks{"/proc/locks"};
    long process = 0;
    for (std::string line; std::getline(locks, line);) {
        if (isWriterOf(line, status.st_ino, process)) {
            std::string name;
            std::getline(std::ifstream{"/proc/" + std::to_string(process) + "/comm"}, name);
            return name.empty() ? QString{}
                                : QStringLiteral("%1 (process %2)").arg(QString::fromStdString(name)).arg(process);
        }
    }
    return {};
}

}  // namespace midden::ui
