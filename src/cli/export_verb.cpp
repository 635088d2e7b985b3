#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <csignal>
#include <filesystem>
#include <memory>

#include "cli/delivery.hpp"
#include "cli/export_options.hpp"
#include "cli/interrupt.hpp"
#include "cli/options.hpp"
#include "cli/output.hpp"
#include "cli/scene_input.hpp"
#include "cli/teeth_input.hpp"
#include "cli/verb.hpp"
#include "export/dxf.hpp"
#include "export/gltf.hpp"
#include "export/printable.hpp"
#include "export/stl.hpp"
#include "export/svg.hpp"
#include "export/three_mf.hpp"
#include "export/urdf.hpp"
#include "scene/error.hpp"
#include "sheet/words.hpp"

namespace couplet {

namespace {

namespace fs = std::filesystem;

std::string target_of(const ExportArguments& arguments) {
    std::string target = *arguments.output;
    while (target.size() > 1 && target.back() == '/') target.pop_back();
    return target;
}

bool is_folder(const ExportArguments& arguments) {
    return arguments.output->ends_with('/');
}

std::vector<Delivery> one_file(const ExportArguments& arguments, std::function<std::string()> bytes) {
    return {{target_of(arguments), {whole_file("", std::move(bytes))}}};
}

std::vector<Delivery> export_gltf(const ExportArguments& arguments, const ExportModel& model) {
    GltfOptions options;
    options.tolerance_mm = tolerance_of(arguments, options.tolerance_mm);
    options.loop = loop_wish_of(arguments);
    return one_file(arguments, [&model, options] { return glb_of(model, options); });
}

// The meshes lie in a folder beside the description.
std::vector<Delivery> export_urdf(const ExportArguments& arguments, const ExportModel& model) {
    const fs::path target = target_of(arguments);
    const auto bodies = std::make_shared<const std::vector<MemberBody>>(member_bodies(model));
    constexpr double kUsualTolerance_mm = 0.05;
    const StlOptions options{tolerance_of(arguments, kUsualTolerance_mm)};
    const std::string folder = target.stem().string() + "_meshes";
    std::string description = urdf_of(model, *bodies, {folder});
    Delivery meshes{target.parent_path() / folder, {}, true};
    const std::vector<std::string> names = mesh_file_names(*bodies);
    for (std::size_t b = 0; b < names.size(); ++b)
        meshes.files.push_back(whole_file(
            names[b], [&model, bodies, options, b] { return stl_of(model.machine, (*bodies)[b], options); }));
    return {meshes, {target, {whole_file("", [description = std::move(description)] { return description; })}}};
}

std::size_t body_of(const ExportModel& model, const std::vector<MemberBody>& bodies, const std::string& name) {
    const MemberIndex member = member_of(model.train, name);
    std::optional<std::size_t> found;
    for (std::size_t b = 0; b < bodies.size(); ++b) {
        const PlaceIndex place = bodies[b].places.front();
        if ((place == PlaceIndex{-1} ? kFrame : model.placement[place].member) != member) continue;
        if (found)
            throw UsageError(
                fmt::format("the copies of {} are not alike; give a folder for all of them, like -o "
                            "parts.stl/",
                            in_quotes(name)));
        found = b;
    }
    if (!found) throw UsageError(fmt::format("{} has nothing to print; name another member", in_quotes(name)));
    return *found;
}

std::vector<Delivery> export_stl(const ExportArguments& arguments, const ExportModel& model) {
    const auto bodies = std::make_shared<const std::vector<MemberBody>>(member_bodies(model));
    StlOptions options;
    options.tolerance_mm = tolerance_of(arguments, options.tolerance_mm);
    const auto file = [&](const std::string& name, std::size_t b) {
        return whole_file(name, [&model, bodies, options, b] { return stl_of(model.machine, (*bodies)[b], options); });
    };
    if (arguments.member) {
        if (is_folder(arguments)) throw UsageError("--member is one file; take the slash off the name behind -o");
        return {{target_of(arguments), {file("", body_of(model, *bodies, *arguments.member))}}};
    }
    if (!is_folder(arguments))
        throw UsageError(
            fmt::format("{0} would hold one member; name it with --member, or give a folder for all of "
                        "them: -o {1}/",
                        in_quotes(*arguments.output), *arguments.output));
    Delivery delivery{target_of(arguments), {}, true};
    const std::vector<std::string> names = mesh_file_names(*bodies);
    for (std::size_t b = 0; b < names.size(); ++b) delivery.files.push_back(file(names[b], b));
    return {delivery};
}

std::vector<Delivery> export_three_mf(const ExportArguments& arguments, const ExportModel& model) {
    const auto bodies = std::make_shared<const std::vector<MemberBody>>(member_bodies(model));
    ThreeMfOptions options;
    options.tolerance_mm = tolerance_of(arguments, options.tolerance_mm);
    return one_file(arguments,
                    [&model, bodies, options] { return three_mf_of(model, model.machine, *bodies, options); });
}

std::vector<Delivery> export_dxf(const ExportArguments& arguments, const ExportModel& model) {
    return one_file(arguments, [&model, options = flat_options_of(arguments)] { return dxf_of(model, options); });
}

std::vector<Delivery> export_svg(const ExportArguments& arguments, const ExportModel& model) {
    return one_file(arguments, [&model, options = flat_options_of(arguments)] { return svg_of(model, options); });
}

std::vector<Delivery> export_table(const ExportArguments& arguments, const ExportModel& model) {
    const auto write = [table = motion_table_of(model, table_options_of(arguments))](const TakeBytes& take) {
        write_motion_table(table, take);
    };
    return {{target_of(arguments), {{"", write}}}};
}

// What a kind of file is made from.
enum class Needs { sizes, printable_sizes, motion };

struct ExportKind {
    std::string_view ending;
    std::string_view what;
    std::string_view options;  // those that only some kinds take
    bool may_be_folder;
    bool shows_motion;  // the setting's, and stands where there is none
    Needs needs;
    std::vector<Delivery> (*make)(const ExportArguments&, const ExportModel&);
};

constexpr std::array kKinds = {
    ExportKind{".glb", "an animated model (glTF)", "--tolerance --loop", false, true, Needs::sizes, export_gltf},
    ExportKind{".urdf", "a robot description, with a folder of meshes beside it", "--tolerance", false, true,
               Needs::sizes, export_urdf},
    ExportKind{".stl", "a member to print; .stl/ for a folder of all", "--tolerance --clearance --member", true, false,
               Needs::printable_sizes, export_stl},
    ExportKind{".3mf", "all members to print", "--tolerance --clearance", false, false, Needs::printable_sizes,
               export_three_mf},
    ExportKind{".dxf", "tooth profiles to model from", "--tolerance --at --units", false, false, Needs::sizes,
               export_dxf},
    ExportKind{".svg", "tooth profiles at true scale", "--tolerance --at --units", false, false, Needs::sizes,
               export_svg},
    ExportKind{".csv", "a table of every joint's angle", "--step --until --wrap --angles --exact", false, false,
               Needs::motion, export_table},
};

std::string kind_words() {
    std::vector<std::string> words;
    words.reserve(kKinds.size());
    for (const ExportKind& kind : kKinds) words.push_back(fmt::format("{} ({})", kind.ending, kind.what));
    return list_text(words, "or");
}

const ExportKind& kind_of(const ExportArguments& arguments) {
    if (!arguments.output) throw UsageError("there is no file to export into; name one with -o, like -o train.glb");
    const std::string ending = fs::path(target_of(arguments)).extension().string();
    const auto found = std::ranges::find(kKinds, ending, &ExportKind::ending);
    if (found == kKinds.end())
        throw UsageError(fmt::format("{} does not say what kind of file it is to be; give it one of these endings: {}",
                                     in_quotes(*arguments.output), kind_words()));
    if (is_folder(arguments) && !found->may_be_folder)
        throw UsageError(
            fmt::format("{} is one file; take the slash off the name {}", found->ending, in_quotes(*arguments.output)));
    return *found;
}

bool takes(const ExportKind& kind, std::string_view option) {
    return fmt::format(" {} ", kind.options).find(fmt::format(" {} ", option)) != std::string::npos;
}

void expect_fitting(const ExportKind& kind, const ExportArguments& arguments) {
    for (const std::string_view option : particular_options(arguments)) {
        if (takes(kind, option)) continue;
        std::vector<std::string> endings;
        for (const ExportKind& other : kKinds)
            if (takes(other, option)) endings.emplace_back(other.ending);
        throw UsageError(fmt::format("{} is for {}; {} does not take it", option, list_text(endings), kind.ending));
    }
}

// A train without settings has no motion to show, but may be printed all the same.
std::optional<Setting> setting_for(const SceneInput& scene, const ExportArguments& arguments) {
    if (!arguments.setting && scene.train.settings.empty()) return std::nullopt;
    return chosen_setting(scene, arguments.setting);
}

ExportModel model_for(const ExportKind& kind, const SceneInput& scene, const ExportArguments& arguments) {
    const std::optional<Setting> setting = setting_for(scene, arguments);
    if (kind.needs == Needs::motion) return moving_model_of(scene.train, setting);
    const double clearance_mm = clearance_of(arguments);
    const Train train = train_with_rack(scene, arguments.teeth);
    const Shifts shifts = arguments.teeth.match_shifts ? Shifts::matched : Shifts::as_written;
    ExportModel model = of_teeth(scene, [&] { return export_model_of(train, setting, shifts); });
    if (kind.needs == Needs::printable_sizes) model.machine = printable(model, clearance_mm);
    return model;
}

int run_export(const ExportArguments& arguments) {
    const ExportKind& kind = kind_of(arguments);
    expect_fitting(kind, arguments);
    expect_not_the_scene(*arguments.output, arguments.scene);
    const SceneInput scene = load_scene(arguments.scene);
    const ExportModel model = model_for(kind, scene, arguments);
    const std::vector<Delivery> deliveries = kind.make(arguments, model);
    listen_for_interrupt();
    std::signal(SIGXFSZ, SIG_IGN);  // a write beyond the limit on a file's size fails instead
    deliver_together(deliveries, arguments.force ? ExistingFiles::replace : ExistingFiles::keep);
    return kind.shows_motion && model.setting && !model.moves() ? kDesignFails : kDone;
}

}  // namespace

Verb add_export_verb(CLI::App& program) {
    CLI::App* verb = program.add_subcommand("export", "the train as a file for other programs");
    auto arguments = std::make_shared<ExportArguments>();
    add_export_options(*verb, *arguments, kind_words());
    return {verb, [arguments] { return run_export(*arguments); }};
}

}  // namespace couplet
