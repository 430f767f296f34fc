#pragma once

#include "cli/command_line.h"
#include "cli/terminal.h"

#include <ostream>

namespace sunfleck::cli {

/// Writes one answer in the format asked. Of the three texts only the one that is written is made.
template <typename Json, typename Csv, typename Table>
void write_answer(Format format, Terminal& terminal, Json json, Csv csv, Table table) {
    switch (format) {
        case Format::json:
            terminal.out << json();
            return;
        case Format::csv:
            terminal.out << csv();
            return;
        case Format::table:
            terminal.out << table();
            return;
    }
}

}  // namespace sunfleck::cli
