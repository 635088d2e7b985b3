#include "sheet/workshop_sheet.hpp"

#include <fmt/format.h>
#include <zlib.h>

#include <algorithm>
#include <array>

#include "scene/scene.hpp"
#include "sheet/cautions.hpp"
#include "sheet/coupling_page.hpp"
#include "sheet/diagrams.hpp"
#include "sheet/numbers.hpp"
#include "sheet/place_words.hpp"
#include "sheet/quantity.hpp"
#include "sheet/sketches.hpp"
#include "sheet/words.hpp"

namespace couplet {

namespace {

// What the driver is turned by in the proving table.
constexpr std::array<int, 4> kProved_deg = {30, 90, 360, 3600};

class WorkshopPage {
  public:
    explicit WorkshopPage(const WorkshopSheet& sheet) : sheet_(sheet), train_(sheet.sizes.train) {}

    Page run() {
        page_.title = train_.title;
        if (!train_.notes.empty()) add(Paragraph{train_.notes});
        add(Facts{"", {{"Date", sheet_.date}, {"Scene mark", scene_mark(train_)}}});
        if (sheet_.picture_png) add(Figure{"train.png", "The train in its start pose.", *sheet_.picture_png});
        add_meshes();
        add_sizes();
        add_places(page_, sheet_.places);
        add_joints();
        add_coupling_blocks(page_, train_, sheet_.couplings);
        add_proving_table();
        add_diagrams();
        add(Heading{"Checks"});
        add_checks(page_, sheet_.checks);
        add(Heading{"Cautions"});
        add(Bullets{{kCautions.begin(), kCautions.end()}});
        return std::move(page_);
    }

  private:
    void add(Block block) { page_.blocks.push_back(std::move(block)); }

    void add_meshes() {
        const std::string sketch = mesh_sketch(train_);
        add(Heading{"Which gears are in mesh"});
        if (!sketch.empty())
            add(Figure{"meshes.svg", "Members by what carries them; lines are meshes, double ones those of a ring.",
                       sketch});
        Table table;
        table.columns = {{"mesh", "", Align::left},
                         {"centre distance", "mm", Align::right},
                         {"operating angle", "deg", Align::right},
                         {"contact ratio", "", Align::right}};
        for (std::size_t m = 0; m < train_.meshes.size(); ++m) {
            const Mesh& mesh = train_.meshes[m];
            const std::vector<Quantity> quantities =
                mesh_quantities(train_, sheet_.sizes.teeth, MeshIndex{static_cast<std::int32_t>(m)});
            table.rows.push_back({name_of(train_, mesh.first) + " with " + name_of(train_, mesh.second),
                                  figure(quantities, "centre_distance_mm"), figure(quantities, "operating_angle_deg"),
                                  figure(quantities, "contact_ratio")});
        }
        add(std::move(table));
    }

    // One figure of a list; empty where it has none.
    static Cell figure(const std::vector<Quantity>& quantities, std::string_view key) {
        const auto found = std::ranges::find(quantities, key, &Quantity::key);
        if (found == quantities.end() || found->value.is_null()) return "";
        if (found->value.is_number_integer()) return std::to_string(found->value.get<std::int64_t>());
        return measured_cell(found->value.get<double>(), found->unit);
    }

    void add_sizes() {
        struct Named {
            const char* key;
            Column column;
        };
        const std::array<Named, 11> columns = {{{"teeth", {"teeth", "", Align::right}},
                                                {"module_mm", {"module", "mm", Align::right}},
                                                {"shift", {"shift", "x module", Align::right}},
                                                {"pitch_diameter_mm", {"pitch dia.", "mm", Align::right}},
                                                {"base_diameter_mm", {"base dia.", "mm", Align::right}},
                                                {"tip_diameter_mm", {"tip dia.", "mm", Align::right}},
                                                {"root_diameter_mm", {"root dia.", "mm", Align::right}},
                                                {"span_teeth", {"span over", "teeth", Align::right}},
                                                {"span_mm", {"span", "mm", Align::right}},
                                                {"pin_mm", {"pin", "mm", Align::right}},
                                                {"over_pins_mm", {"over pins", "mm", Align::right}}}};
        Table table;
        table.columns = {{"gear", "", Align::left}};
        for (const Named& named : columns) table.columns.push_back(named.column);
        for (std::size_t g = 0; g < train_.gears.size(); ++g) {
            const GearIndex gear{static_cast<std::int32_t>(g)};
            const std::vector<Quantity> quantities = gear_quantities(train_, sheet_.sizes.teeth, gear);
            std::vector<Cell> row = {full_name(train_, gear) + (train_[gear].internal ? " (ring)" : "")};
            for (const Named& named : columns) row.push_back(figure(quantities, named.key));
            table.rows.push_back(std::move(row));
        }
        add(Heading{"Teeth and sizes"});
        add(std::move(table));
        add(Paragraph{
            "The span is measured over that many teeth with a caliper, the last figure over two pins or balls of "
            "the diameter beside it; between them in a ring."});
    }

    // What a part rides on comes before it.
    void add_joints() {
        std::vector<int> order(train_.members.size());
        int next = 0;
        each_member_from_the_frame(train_, [&](MemberIndex member) { order[member.position()] = next++; });
        std::vector<JointRate> joints = sheet_.couplings.joints;
        std::ranges::stable_sort(joints, {}, [&](const JointRate& rate) { return order[rate.joint.turns.position()]; });
        Table table;
        table.columns = {{"no.", "", Align::right},
                         {"joint", "", Align::left},
                         {"turns", "", Align::left},
                         {"against", "", Align::left},
                         {"axis counts", "", Align::left}};
        for (const JointRate& rate : joints)
            table.rows.push_back({std::to_string(table.rows.size() + 1), joint_name(train_, rate.joint),
                                  member_label(train_, rate.joint.turns), name_of(train_, rate.joint.against),
                                  rate.joint.flipped ? "from -Z (flipped)" : "from +Z"});
        add(Heading{"Joints to make, in this order"});
        add(std::move(table));
        add(Paragraph{"A joint of copies is made once for each copy."});
    }

    // "-20.125 (339.875)": as it counts on, and as a field shows it that begins anew after each turn.
    static Cell proving_cell(const Ratio& degrees) {
        const Ratio within = (degrees / Ratio(360)).fraction() * Ratio(360);
        const std::string shown = decimal_cell(degrees).shown;
        if (within == degrees) return shown;
        return fmt::format("{} ({})", shown, decimal_cell(within).shown);
    }

    void add_proving_table() {
        if (!sheet_.couplings.reference_driver) return;
        const std::string& driver = name_of(train_, sheet_.couplings.reference_driver->member);
        Table table;
        table.columns = {{"joint", "", Align::left}};
        for (const int degrees : kProved_deg)
            table.columns.push_back({fmt::format("{} turned by {}", driver, degrees), "deg", Align::right});
        for (const JointRate& rate : sheet_.couplings.joints) {
            if (!rate.turns_per_driver_turn) continue;
            std::vector<Cell> row = {joint_label(train_, rate.joint)};
            for (const int degrees : kProved_deg)
                row.push_back(proving_cell(*rate.turns_per_driver_turn * Ratio(degrees)));
            table.rows.push_back(std::move(row));
        }
        if (table.rows.empty()) return;
        add(Heading{"Proving table"});
        add(Paragraph{
            fmt::format("Turn {} in the model by these angles from the start pose: each joint should then read "
                        "this angle, or the one in brackets where its field begins anew after each turn.",
                        driver)});
        add(std::move(table));
    }

    void add_diagrams() {
        const Motion& motion = sheet_.couplings.motion;
        const std::vector<Lever> levers = levers_of(train_, motion);
        int number = 0;
        for (const Lever& lever : levers) {
            if (number == 0) add(Heading{"Lever diagram"});
            const std::string words = fmt::format(
                "Round {}: speeds to the right in turns per turn of the driver, distances from tooth counts.",
                name_of(train_, lever.carrier));
            add(Figure{fmt::format("lever_{}.svg", ++number), words, lever_sketch(train_, lever)});
        }
        number = 0;
        for (const PlanSection& section : speed_plan_of(train_, sheet_.places.placement, motion)) {
            if (section.rays.empty()) continue;
            if (number == 0) add(Heading{"Speed plan"});
            const std::string words = fmt::format(
                "A section through axes of {}: velocities to the right, places upwards; dots are pitch points.",
                section.arm == kFrame ? "the frame" : name_of(train_, section.arm));
            add(Figure{fmt::format("speed_plan_{}.svg", ++number), words, section_sketch(train_, section)});
        }
    }

    const WorkshopSheet& sheet_;
    const Train& train_;
    Page page_;
};

}  // namespace

std::string scene_mark(const Train& train) {
    const std::string text = write_scene(train);
    const uLong crc = crc32(0, reinterpret_cast<const Bytef*>(text.data()), static_cast<uInt>(text.size()));
    return fmt::format("{:08x}", crc);
}

Page workshop_page(const WorkshopSheet& sheet) {
    return WorkshopPage(sheet).run();
}

}  // namespace couplet
