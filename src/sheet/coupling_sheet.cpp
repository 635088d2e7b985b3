#include "sheet/coupling_sheet.hpp"

#include "sheet/coupling_json.hpp"
#include "sheet/coupling_page.hpp"
#include "sheet/coupling_table.hpp"

namespace couplet {

std::string coupling_sheet(const Train& train, const CouplingSheet& sheet, Format format) {
    switch (format) {
        case Format::text:
            return text_page(coupling_page(train, sheet));
        case Format::md:
            return markdown_page(coupling_page(train, sheet));
        case Format::csv:
            return csv_table(coupling_table(train, sheet));
        case Format::json:
            return coupling_json(train, sheet);
    }
    return "";
}

}  // namespace couplet
