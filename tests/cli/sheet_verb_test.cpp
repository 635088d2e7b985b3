#include <gtest/gtest.h>

#include <regex>

#include "cli/run_couplet.hpp"

namespace couplet {
namespace {

class SheetVerb : public CoupletRun {
  protected:
    // The words of the sheet as a browser prints it, and its pages.
    struct Printed {
        std::string words;
        int pages = 0;
    };
    [[nodiscard]] Printed printed(const std::string& html) const {
        const std::string path = (folder_ / html).string();
        const std::string command =
            "cd '" + folder_.string() + "' && HOME='" + folder_.string() +
            "' timeout 100 chromium --headless --no-sandbox --disable-gpu --no-pdf-header-footer "
            "--print-to-pdf=sheet.pdf 'file://" +
            path + "' >.log 2>&1 && pdftotext -layout sheet.pdf sheet.txt && pdfinfo sheet.pdf >info.txt";
        EXPECT_EQ(std::system(command.c_str()), 0) << file_text(folder_ / ".log");  // NOLINT(cert-env33-c): a test
        Printed result;
        result.words = file_text(folder_ / "sheet.txt");
        std::smatch pages;
        const std::string info = file_text(folder_ / "info.txt");
        if (std::regex_search(info, pages, std::regex("Pages: +([0-9]+)"))) result.pages = std::stoi(pages[1]);
        return result;
    }
};

// By Chromium and poppler: a reader of HTML and a reader of PDF that know nothing of us.
TEST_F(SheetVerb, PrintsTheNumbersOfTheOtherVerbs) {
    ASSERT_EQ(run("sheet -o capstan.html --date 2026-06-21").status, 0);
    const Printed print = printed("capstan.html");
    EXPECT_GE(print.pages, 4);
    EXPECT_LE(print.pages, 8);
    const auto says = [&](const std::string& text) { return print.words.find(text) != std::string::npos; };
    EXPECT_TRUE(says("2026-06-21"));
    const Json couplings = json("couple");
    for (const Json& coupling : couplings["couplings"]) {
        if (coupling["second_per_first"]["exact"] == "0") continue;
        EXPECT_TRUE(says(coupling["second_per_first"]["exact"].get<std::string>())) << coupling;
        EXPECT_TRUE(says(coupling["degrees"][1].get<std::string>())) << coupling;
    }
    const Json sizes = json("size");
    for (const Json& gear : sizes["gears"])
        for (const char* key : {"pitch_diameter_mm", "tip_diameter_mm", "span_mm"})
            if (gear[key].is_number()) {
                std::array<char, 32> text{};
                std::snprintf(text.data(), text.size(), "%.3f", gear[key].get<double>());
                EXPECT_TRUE(says(text.data())) << gear["gear"] << " " << key;
            }
    for (const char* caution : {"no strength, wear or heat is calculated", "Turning gears trap fingers", "local codes"})
        EXPECT_TRUE(says(caution)) << caution;
}

TEST_F(SheetVerb, GivesTheSameBytesAgain) {
    ASSERT_EQ(run("sheet -o one.html --date today --no-picture").status, 0);
    ASSERT_EQ(run("sheet -o two.html --date today --no-picture").status, 0);
    EXPECT_TRUE(file_text(folder_ / "one.html") == file_text(folder_ / "two.html"));
}

TEST_F(SheetVerb, WritesMarkdownWithItsFiguresBesideIt) {
    ASSERT_EQ(run("sheet -o capstan.md").status, 0);
    const std::string text = file_text(folder_ / "capstan.md");
    const std::regex figure("\\]\\(<(capstan\\.pictures/[a-z_0-9]+\\.(svg|png))>\\)");
    int figures = 0;
    for (std::sregex_iterator at(text.begin(), text.end(), figure), end; at != end; ++at, ++figures)
        EXPECT_FALSE(file_text(folder_ / (*at)[1].str()).empty()) << (*at)[1];
    EXPECT_EQ(figures, 4);  // train, meshes, lever, speed plan
    EXPECT_TRUE(file_text(folder_ / "capstan.pictures/train.png").starts_with("\x89PNG"));
}

TEST_F(SheetVerb, RefusesWhatItCannotDo) {
    expect_refused("sheet", "couplet: there is no file to write the sheet to; name one with -o, like -o sheet.html");
    expect_refused("sheet -o sheet.txt",
                   "couplet: 'sheet.txt' does not say what kind of sheet it is to be; end it in .html or .md");
    expect_refused("sheet -o sheet.html --setting hoisting",
                   "couplet: unknown setting 'hoisting'; the settings are 'hauling', 'lowering', 'ring "
                   "loose' and 'crank held'");
    EXPECT_FALSE(std::filesystem::exists(folder_ / "sheet.html"));
}

TEST_F(SheetVerb, ReplacesOnlyWhereItIsForcedTo) {
    std::ofstream(folder_ / "sheet.html") << "mine";
    EXPECT_EQ(run("sheet -o sheet.html --no-picture").status, 2);
    EXPECT_EQ(file_text(folder_ / "sheet.html"), "mine");
    EXPECT_EQ(run("sheet -o sheet.html --no-picture --force").status, 0);
    EXPECT_TRUE(file_text(folder_ / "sheet.html").starts_with("<!DOCTYPE html>"));
}

TEST_F(SheetVerb, FailsWithTheDesign) {
    EXPECT_EQ(run("sheet '" COUPLET_ROOT "/scenes/misfit_mooring.toml' -o sheet.html --no-picture").status, 1);
    EXPECT_NE(file_text(folder_ / "sheet.html").find("FAILS: assembly condition"), std::string::npos);
}

}  // namespace
}  // namespace couplet
