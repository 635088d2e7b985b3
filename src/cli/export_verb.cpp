#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <filesystem>
#include <memory>

#include "cli/delivery.hpp"
#include "cli/options.hpp"
#include "cli/output.hpp"
#include "cli/scene_input.hpp"
#include "cli/stage_options.hpp"
#include "cli/teeth_input.hpp"
#include "cli/verb.hpp"
#include "export/gltf.hpp"
#include "export/printable.hpp"
#include "export/stl.hpp"
#include "export/three_mf.hpp"
#include "export/urdf.hpp"
#include "scene/error.hpp"
#include "sheet/words.hpp"

namespace couplet {

namespace {

namespace fs = std::filesystem;

struct ExportArguments {
    std::string scene;
    std::optional<std::string> output;
    std::optional<std::string> setting;
    std::optional<std::string> tolerance;
    std::optional<std::string> clearance;
    std::optional<std::string> member;
    bool force = false;
    TeethOptions teeth;
};

double tolerance_of(const ExportArguments& arguments, double usual_mm) {
    if (!arguments.tolerance) return usual_mm;
    return number_within("--tolerance", *arguments.tolerance, 1e-4, 10.0, "0.01 (mm)");
}

double clearance_of(const ExportArguments& arguments) {
    if (!arguments.clearance) return 0.0;
    return number_within("--clearance", *arguments.clearance, 0.0, 10.0, "0.15 (mm)");
}

std::string target_of(const ExportArguments& arguments) {
    std::string target = *arguments.output;
    while (target.size() > 1 && target.back() == '/') target.pop_back();
    return target;
}

bool is_folder(const ExportArguments& arguments) {
    return arguments.output->ends_with('/');
}

std::vector<Delivery> export_gltf(const ExportArguments& arguments, const ExportModel& model) {
    GltfOptions options;
    options.tolerance_mm = tolerance_of(arguments, options.tolerance_mm);
    return {{target_of(arguments), {{"", [&model, options] { return glb_of(model, options); }}}}};
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
        meshes.files.push_back(
            {names[b], [&model, bodies, options, b] { return stl_of(model.machine, (*bodies)[b], options); }});
    return {meshes, {target, {{"", [description = std::move(description)] { return description; }}}}};
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
        return DeliveredFile{name,
                             [&model, bodies, options, b] { return stl_of(model.machine, (*bodies)[b], options); }};
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
    return {{target_of(arguments),
             {{"", [&model, bodies, options] { return three_mf_of(model, model.machine, *bodies, options); }}}}};
}

struct ExportKind {
    std::string_view ending;
    std::string_view what;
    bool may_be_folder;
    bool is_printed;    // takes --clearance; fasteners are left out
    bool needs_motion;  // shows the setting's motion
    std::vector<Delivery> (*make)(const ExportArguments&, const ExportModel&);
};

constexpr std::array kKinds = {
    ExportKind{".glb", "an animated model (glTF)", false, false, true, export_gltf},
    ExportKind{".urdf", "a robot description, with a folder of meshes beside it", false, false, true, export_urdf},
    ExportKind{".stl", "a member to print; .stl/ for a folder of all", true, true, false, export_stl},
    ExportKind{".3mf", "all members to print", false, true, false, export_three_mf},
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

void expect_fitting(const ExportKind& kind, const ExportArguments& arguments) {
    if (arguments.clearance && !kind.is_printed)
        throw UsageError(
            fmt::format("--clearance is for what is printed, .stl and .3mf; {} has the true teeth", kind.ending));
    if (arguments.member && kind.ending != ".stl")
        throw UsageError(fmt::format("--member is for .stl; a {} holds the whole train", kind.ending));
}

// A train without settings has no motion to show, but may be printed all the same.
std::optional<Setting> setting_for(const SceneInput& scene, const ExportArguments& arguments) {
    if (!arguments.setting && scene.train.settings.empty()) return std::nullopt;
    return chosen_setting(scene, arguments.setting);
}

int run_export(const ExportArguments& arguments) {
    const ExportKind& kind = kind_of(arguments);
    expect_fitting(kind, arguments);
    expect_not_the_scene(*arguments.output, arguments.scene);
    const double clearance_mm = clearance_of(arguments);
    const SceneInput scene = load_scene(arguments.scene);
    const Train train = train_with_rack(scene, arguments.teeth);
    const std::optional<Setting> setting = setting_for(scene, arguments);
    const Shifts shifts = arguments.teeth.match_shifts ? Shifts::matched : Shifts::as_written;
    ExportModel model = of_teeth(scene, [&] { return export_model_of(train, setting, shifts); });
    if (kind.is_printed) model.machine = printable(model, clearance_mm);
    deliver_together(kind.make(arguments, model), arguments.force ? ExistingFiles::replace : ExistingFiles::keep);
    return kind.needs_motion && setting && !model.moves() ? kDesignFails : kDone;
}

}  // namespace

Verb add_export_verb(CLI::App& program) {
    CLI::App* verb = program.add_subcommand("export", "the train as a file for other programs");
    auto arguments = std::make_shared<ExportArguments>();
    verb->add_option("SCENE", arguments->scene, "scene file (TOML); without one, the built-in harbour capstan");
    verb->add_option("-o,--output", arguments->output, "the file; its ending says what kind: " + kind_words())
        ->type_name("FILE");
    verb->add_flag("--force", arguments->force, "replace what is there already");
    verb->add_option("--setting", arguments->setting, "the setting that moves the train; default: the first")
        ->type_name("NAME");
    verb->add_option("--tolerance", arguments->tolerance,
                     "how far a flat facet may leave its curve, in mm; default 0.05, for what is printed 0.01")
        ->type_name("MM");
    verb->add_option("--clearance", arguments->clearance,
                     "for printing: flanks are moved in, and bores that turn widened, by so many mm; default 0")
        ->type_name("MM");
    verb->add_option("--member", arguments->member, "the member, or frame, that a single .stl holds")
        ->type_name("NAME");
    add_teeth_options(*verb, arguments->teeth);
    return {verb, [arguments] { return run_export(*arguments); }};
}

}  // namespace couplet
