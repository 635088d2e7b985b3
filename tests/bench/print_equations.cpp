// Prints the equations of a family's train as text, for rivals in other languages: a line "rows columns", then a line
// per row of "column:coefficient" each. Only the rows that are 0: a vector that all of them send to 0 is the motion.
#include <charconv>
#include <cstring>
#include <iostream>

#include "bench/named_families.hpp"
#include "support/equations.hpp"

int main(int argc, char** argv) {
    int members = 0;
    if (argc != 3 || std::from_chars(argv[2], argv[2] + std::strlen(argv[2]), members).ec != std::errc{}) {
        std::cerr << "usage: print_equations FAMILY MEMBERS\n";
        return 2;
    }
    const couplet::FamilyTrain family = couplet::family_named(argv[1], members);
    const couplet::RateRows rows = couplet::still_rows(family.train, family.setting);
    std::cout << rows.size() << ' ' << family.train.members.size() << '\n';
    for (const couplet::RateRow& row : rows) {
        for (const auto& [column, coefficient] : row) std::cout << column << ':' << coefficient << ' ';
        std::cout << '\n';
    }
}
