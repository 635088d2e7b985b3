#include "export/dxf.hpp"

#include <fmt/format.h>

#include <iterator>

namespace couplet {

namespace {

// Handles that other parts of the file refer to; all others count on from kFirstFree.
enum Handle : unsigned {
    kRoot = 1,
    kGroups,
    kBlockRecords,
    kModelSpace,
    kPaperSpace,
    kViewports,
    kLineTypes,
    kLayers,
    kStyles,
    kViews,
    kCoordinateSystems,
    kApplications,
    kDimensionStyles,
    kFirstFree
};

class DxfWriter {
  public:
    explicit DxfWriter(LengthUnit unit) : unit_(unit) {}

    std::string document(const std::vector<FlatLayer>& layers) {
        // The header names a handle above all others, which are known at the end.
        tables(layers);
        blocks();
        entities(layers);
        objects();
        const std::string body = std::move(text_);
        text_.clear();
        header(box_of(layers));
        return std::move(text_) + body;
    }

  private:
    void pair(int code, std::string_view value) {
        fmt::format_to(std::back_inserter(text_), "{:3}\n{}\n", code, value);
    }
    void pair(int code, int value) { fmt::format_to(std::back_inserter(text_), "{:3}\n{}\n", code, value); }
    void length(int code, double mm) { pair(code, length_text(mm, unit_)); }
    void handle(int code, unsigned value) { fmt::format_to(std::back_inserter(text_), "{:3}\n{:X}\n", code, value); }
    unsigned next() { return next_++; }

    void point(int code, const PlanePoint& at) {
        length(code, at.x_mm);
        length(code + 10, at.y_mm);
    }
    void origin(int code) {
        for (const int axis : {0, 10, 20}) pair(code + axis, "0.0");
    }

    void section(std::string_view name) {
        pair(0, "SECTION");
        pair(2, name);
    }
    void end_section() { pair(0, "ENDSEC"); }

    void header(const FlatBox& box) {
        const bool is_inch = unit_ == LengthUnit::inch;
        section("HEADER");
        variable("$ACADVER", 1, "AC1015");
        variable("$DWGCODEPAGE", 3, "ANSI_1252");
        pair(9, "$HANDSEED");
        handle(5, next_);
        pair(9, "$INSUNITS");
        pair(70, is_inch ? 1 : 4);
        pair(9, "$MEASUREMENT");
        pair(70, is_inch ? 0 : 1);
        pair(9, "$LUNITS");
        pair(70, 2);
        pair(9, "$EXTMIN");
        point(10, box.low);
        pair(30, "0.0");
        pair(9, "$EXTMAX");
        point(10, box.high);
        pair(30, "0.0");
        // A point is shown as a cross, or nobody would see it.
        pair(9, "$PDMODE");
        pair(70, 2);
        end_section();
        section("CLASSES");
        end_section();
    }
    void variable(std::string_view name, int code, std::string_view value) {
        pair(9, name);
        pair(code, value);
    }

    void table(std::string_view name, Handle own, std::size_t entries) {
        pair(0, "TABLE");
        pair(2, name);
        handle(5, own);
        handle(330, 0);
        pair(100, "AcDbSymbolTable");
        pair(70, static_cast<int>(entries));
    }
    void end_table() { pair(0, "ENDTAB"); }

    void record(std::string_view type, Handle owner, unsigned own, std::string_view kind, std::string_view name,
                int handle_code = 5) {
        pair(0, type);
        handle(handle_code, own);
        handle(330, owner);
        pair(100, "AcDbSymbolTableRecord");
        pair(100, kind);
        pair(2, name);
    }

    void tables(const std::vector<FlatLayer>& layers) {
        section("TABLES");
        table("VPORT", kViewports, 0);
        end_table();
        line_types();
        layer_table(layers);
        text_styles();
        table("VIEW", kViews, 0);
        end_table();
        table("UCS", kCoordinateSystems, 0);
        end_table();
        table("APPID", kApplications, 1);
        record("APPID", kApplications, next(), "AcDbRegAppTableRecord", "ACAD");
        pair(70, 0);
        end_table();
        dimension_styles();
        table("BLOCK_RECORD", kBlockRecords, 2);
        record("BLOCK_RECORD", kBlockRecords, kModelSpace, "AcDbBlockTableRecord", "*Model_Space");
        record("BLOCK_RECORD", kBlockRecords, kPaperSpace, "AcDbBlockTableRecord", "*Paper_Space");
        end_table();
        end_section();
    }

    void line_types() {
        table("LTYPE", kLineTypes, 3);
        for (const std::string_view name : {"ByBlock", "ByLayer", "Continuous"}) {
            record("LTYPE", kLineTypes, next(), "AcDbLinetypeTableRecord", name);
            pair(70, 0);
            pair(3, "");
            pair(72, 65);  // always the letter A
            pair(73, 0);
            pair(40, "0.0");
        }
        end_table();
    }

    void layer_table(const std::vector<FlatLayer>& layers) {
        constexpr int kColours = 6;  // red to magenta; 7 is black or white, as the background wants it
        table("LAYER", kLayers, layers.size() + 1);
        layer("0", 7);
        for (std::size_t i = 0; i < layers.size(); ++i) layer(layers[i].name, 1 + static_cast<int>(i % kColours));
        end_table();
    }
    void layer(std::string_view name, int colour) {
        record("LAYER", kLayers, next(), "AcDbLayerTableRecord", name);
        pair(70, 0);
        pair(62, colour);
        pair(6, "Continuous");
    }

    void text_styles() {
        table("STYLE", kStyles, 1);
        record("STYLE", kStyles, next(), "AcDbTextStyleTableRecord", "Standard");
        pair(70, 0);
        pair(40, "0.0");
        pair(41, "1.0");
        pair(50, "0.0");
        pair(71, 0);
        pair(42, "2.5");
        pair(3, "txt");
        pair(4, "");
        end_table();
    }

    void dimension_styles() {
        table("DIMSTYLE", kDimensionStyles, 1);
        pair(100, "AcDbDimStyleTable");
        pair(71, 0);
        record("DIMSTYLE", kDimensionStyles, next(), "AcDbDimStyleTableRecord", "Standard", 105);
        pair(70, 0);
        end_table();
    }

    void blocks() {
        section("BLOCKS");
        block("*Model_Space", kModelSpace, false);
        block("*Paper_Space", kPaperSpace, true);
        end_section();
    }
    void block(std::string_view name, Handle owner, bool on_paper) {
        entity("BLOCK", owner, "0", on_paper);
        pair(100, "AcDbBlockBegin");
        pair(2, name);
        pair(70, 0);
        origin(10);
        pair(3, name);
        pair(1, "");
        entity("ENDBLK", owner, "0", on_paper);
        pair(100, "AcDbBlockEnd");
    }

    void entity(std::string_view type, Handle owner, std::string_view layer_name, bool on_paper = false) {
        pair(0, type);
        handle(5, next());
        handle(330, owner);
        pair(100, "AcDbEntity");
        if (on_paper) pair(67, 1);
        pair(8, layer_name);
    }

    void entities(const std::vector<FlatLayer>& layers) {
        section("ENTITIES");
        for (const FlatLayer& layer : layers) {
            for (const FlatGear& gear : layer.gears) {
                polyline(layer.name, gear.teeth);
                if (gear.circle_mm) circle(layer.name, gear.centre, *gear.circle_mm);
            }
            for (const PlanePoint& axis : layer.axes) {
                entity("POINT", kModelSpace, layer.name);
                pair(100, "AcDbPoint");
                point(10, axis);
                pair(30, "0.0");
            }
        }
        end_section();
    }

    void polyline(std::string_view layer_name, const ArcLoop& loop) {
        constexpr int kClosed = 1;
        entity("LWPOLYLINE", kModelSpace, layer_name);
        pair(100, "AcDbPolyline");
        pair(90, static_cast<int>(loop.size()));
        pair(70, kClosed);
        for (const ArcCorner& corner : loop) {
            point(10, corner.at);
            if (corner.bulge != 0.0) pair(42, fmt::format("{:.12f}", corner.bulge));
        }
    }

    void circle(std::string_view layer_name, const PlanePoint& centre, double diameter_mm) {
        entity("CIRCLE", kModelSpace, layer_name);
        pair(100, "AcDbCircle");
        point(10, centre);
        pair(30, "0.0");
        length(40, diameter_mm / 2.0);
    }

    void objects() {
        section("OBJECTS");
        dictionary(kRoot, 0);
        pair(3, "ACAD_GROUP");
        handle(350, kGroups);
        dictionary(kGroups, kRoot);
        end_section();
        pair(0, "EOF");
    }
    void dictionary(Handle own, unsigned owner) {
        pair(0, "DICTIONARY");
        handle(5, own);
        handle(330, owner);
        pair(100, "AcDbDictionary");
        pair(281, 1);
    }

    LengthUnit unit_;
    std::string text_;
    unsigned next_ = kFirstFree;
};

}  // namespace

std::string dxf_of(const ExportModel& model, const FlatOptions& options) {
    return DxfWriter(options.unit).document(flat_drawing(model, options));
}

}  // namespace couplet
