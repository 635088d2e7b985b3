#include "sheet/html_page.hpp"

#include <gtest/gtest.h>

#include <algorithm>

namespace couplet {
namespace {

// RFC 4648, section 10.
TEST(Base64, GivesTheTestVectorsOfItsStandard) {
    EXPECT_EQ(base64(""), "");
    EXPECT_EQ(base64("f"), "Zg==");
    EXPECT_EQ(base64("fo"), "Zm8=");
    EXPECT_EQ(base64("foo"), "Zm9v");
    EXPECT_EQ(base64("foob"), "Zm9vYg==");
    EXPECT_EQ(base64("fooba"), "Zm9vYmE=");
    EXPECT_EQ(base64("foobar"), "Zm9vYmFy");
    EXPECT_EQ(base64(std::string("\xff\x00\xfe", 3)), "/wD+");
}

std::size_t count_of(const std::string& text, std::string_view part) {
    std::size_t count = 0;
    for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++count;
    return count;
}

Page page_of_everything() {
    Page page;
    page.title = "Quay & <crane>";
    page.blocks.emplace_back(Heading{"One \"heading\""});
    page.blocks.emplace_back(Paragraph{"First\nstill first.\n\nSecond <b>."});
    page.blocks.emplace_back(Bullets{{"a < b", "c"}});
    page.blocks.emplace_back(Facts{"title", {{"label", "text"}, {"formula", "a * b", true}}});
    Table table;
    table.columns = {{"gear", "", Align::left}, {"size", "mm", Align::right}};
    table.rows = {{"sun", "1.5"}, {"ring"}};
    page.blocks.emplace_back(table);
    page.blocks.emplace_back(Figure{"a.svg", "a drawing", "<svg/>"});
    page.blocks.emplace_back(Figure{"b.png", "a picture", "foobar"});
    return page;
}

TEST(HtmlPage, HoldsEveryBlockWithItsTextEscaped) {
    const std::string html = html_page(page_of_everything());
    EXPECT_TRUE(html.starts_with("<!DOCTYPE html>"));
    for (const char* part :
         {"<title>Quay &amp; &lt;crane&gt;</title>", "<h1>Quay &amp; &lt;crane&gt;</h1>",
          "<h2>One &quot;heading&quot;</h2>", "<p>First still first.</p>", "<p>Second &lt;b&gt;.</p>",
          "<li>a &lt; b</li>", "<h3>title</h3>", "<dt>label</dt><dd>text</dd>", "<dd><code>a * b</code></dd>",
          "<th class=\"n\">size<small>mm</small></th>", "<td>sun</td><td class=\"n\">1.5</td>",
          "<td>ring</td><td class=\"n\"></td>", "data:image/svg+xml;base64,PHN2Zy8+", "data:image/png;base64,Zm9vYmFy"})
        EXPECT_NE(html.find(part), std::string::npos) << part;
    EXPECT_EQ(html.find("<b>"), std::string::npos);
}

// Whatever is opened is closed.
TEST(HtmlPage, ClosesWhatItOpens) {
    const std::string html = html_page(page_of_everything());
    for (const std::string name :
         {"html", "head", "body", "table", "thead", "tbody", "ul", "dl", "figure", "p", "li", "h2"}) {
        const std::size_t opened = count_of(html, "<" + name + ">") + count_of(html, "<" + name + " ");
        EXPECT_EQ(opened, count_of(html, "</" + name + ">")) << name;
        EXPECT_GT(opened, 0U) << name;
    }
}

TEST(MarkdownPage, RefersToItsFigures) {
    const std::string text = markdown_page(page_of_everything(), "quay.pictures");
    EXPECT_NE(text.find("![a drawing](<quay.pictures/a.svg>)"), std::string::npos);
    EXPECT_NE(text.find("![a picture](<quay.pictures/b.png>)"), std::string::npos);
}

}  // namespace
}  // namespace couplet
