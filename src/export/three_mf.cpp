#include "export/three_mf.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>

#include "export/zip_archive.hpp"
#include "sheet/table.hpp"

namespace couplet {

namespace {

constexpr std::string_view kContentTypes = R"(<?xml version="1.0" encoding="UTF-8"?>
<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">
  <Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>
  <Default Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/>
</Types>
)";

constexpr std::string_view kRelationships = R"(<?xml version="1.0" encoding="UTF-8"?>
<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">
  <Relationship Target="/3D/3dmodel.model" Id="model" Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/>
</Relationships>
)";

constexpr double kBetween_mm = 5.0;  // items on the bed

struct Box {
    std::array<double, 3> least;
    std::array<double, 3> most;

    [[nodiscard]] double size(std::size_t axis) const { return most[axis] - least[axis]; }
};

Box box_of(const BodyMesh& mesh) {
    constexpr double kFar = std::numeric_limits<double>::infinity();
    Box box{{kFar, kFar, kFar}, {-kFar, -kFar, -kFar}};
    for (const auto& point : mesh.points_mm)
        for (std::size_t c = 0; c < 3; ++c) {
            box.least[c] = std::min(box.least[c], static_cast<double>(point[c]));
            box.most[c] = std::max(box.most[c], static_cast<double>(point[c]));
        }
    return box;
}

// Writes a part of the archive in pieces, so that a large model need not lie in memory as text.
class XmlPart {
  public:
    explicit XmlPart(ZipArchive& archive) : archive_(archive) {}

    template <class... Values>
    void write(fmt::format_string<const Values&...> format, const Values&... values) {
        fmt::format_to(std::back_inserter(text_), format, values...);
        constexpr std::size_t kPiece = std::size_t{1} << 16U;
        if (text_.size() > kPiece) flush();
    }
    void flush() {
        archive_.add({text_.data(), text_.size()});
        text_.clear();
    }

  private:
    ZipArchive& archive_;
    fmt::memory_buffer text_;
};

void write_object(XmlPart& xml, std::size_t id, const std::string& name, const BodyMesh& mesh) {
    xml.write("    <object id=\"{}\" type=\"model\" name=\"{}\">\n      <mesh>\n        <vertices>\n", id,
              markup_escaped(name));
    for (const auto& p : mesh.points_mm) xml.write("<vertex x=\"{}\" y=\"{}\" z=\"{}\"/>\n", p[0], p[1], p[2]);
    xml.write("        </vertices>\n        <triangles>\n");
    for (const auto& t : mesh.triangles) xml.write("<triangle v1=\"{}\" v2=\"{}\" v3=\"{}\"/>\n", t[0], t[1], t[2]);
    xml.write("        </triangles>\n      </mesh>\n    </object>\n");
}

// Items from left to right, row behind row, no wider than they are deep together.
class Bed {
  public:
    explicit Bed(double width_mm) : width_mm_(width_mm) {}

    // The shift that brings a box to its place.
    std::array<double, 3> place(const Box& box) {
        if (x_mm_ > kBetween_mm && x_mm_ + box.size(0) > width_mm_) {
            x_mm_ = kBetween_mm;
            y_mm_ += deepest_mm_ + kBetween_mm;
            deepest_mm_ = 0.0;
        }
        const std::array<double, 3> shift = {x_mm_ - box.least[0], y_mm_ - box.least[1], -box.least[2]};
        x_mm_ += box.size(0) + kBetween_mm;
        deepest_mm_ = std::max(deepest_mm_, box.size(1));
        return shift;
    }

  private:
    double width_mm_;
    double x_mm_ = kBetween_mm;
    double y_mm_ = kBetween_mm;
    double deepest_mm_ = 0.0;
};

double bed_width_mm(const std::vector<MemberBody>& bodies, const std::vector<Box>& boxes) {
    double area_mm2 = 0.0;
    double widest_mm = 0.0;
    for (std::size_t b = 0; b < boxes.size(); ++b) {
        area_mm2 += static_cast<double>(bodies[b].places.size()) * (boxes[b].size(0) + kBetween_mm) *
                    (boxes[b].size(1) + kBetween_mm);
        widest_mm = std::max(widest_mm, boxes[b].size(0));
    }
    return std::max(widest_mm + 2.0 * kBetween_mm, 1.2 * std::sqrt(area_mm2));
}

void write_items(XmlPart& xml, const std::vector<MemberBody>& bodies, const std::vector<Box>& boxes,
                 const std::vector<std::size_t>& ids) {
    Bed bed(bed_width_mm(bodies, boxes));
    for (std::size_t b = 0; b < boxes.size(); ++b)
        for (std::size_t copy = 0; copy < bodies[b].places.size(); ++copy) {
            const std::array<double, 3> shift = bed.place(boxes[b]);
            xml.write("    <item objectid=\"{}\" transform=\"1 0 0 0 1 0 0 0 1 {:.4f} {:.4f} {:.4f}\"/>\n", ids[b],
                      shift[0], shift[1], shift[2]);
        }
}

}  // namespace

std::string three_mf_of(const ExportModel& model, const Machine& machine, const std::vector<MemberBody>& all_bodies,
                        const ThreeMfOptions& options) {
    ZipArchive archive;
    archive.begin("[Content_Types].xml");
    archive.add(kContentTypes);
    archive.begin("_rels/.rels");
    archive.add(kRelationships);
    archive.begin("3D/3dmodel.model");
    XmlPart xml(archive);
    xml.write(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
        "<model unit=\"millimeter\" xml:lang=\"en\" "
        "xmlns=\"http://schemas.microsoft.com/3dmanufacturing/core/2015/02\">\n"
        "  <metadata name=\"Title\">{}</metadata>\n  <resources>\n",
        markup_escaped(model.train.title));
    std::vector<MemberBody> bodies;
    std::vector<Box> boxes;
    std::vector<std::size_t> ids;
    for (const MemberBody& body : all_bodies) {
        const BodyMesh mesh = body_mesh(machine, body, options.tolerance_mm);
        if (mesh.triangles.empty()) continue;
        bodies.push_back(body);
        boxes.push_back(box_of(mesh));
        ids.push_back(ids.size() + 1);
        write_object(xml, ids.back(), body.name, mesh);
    }
    xml.write("  </resources>\n  <build>\n");
    write_items(xml, bodies, boxes, ids);
    xml.write("  </build>\n</model>\n");
    xml.flush();
    return archive.finish();
}

}  // namespace couplet
