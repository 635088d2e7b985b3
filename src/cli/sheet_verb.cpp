#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <ctime>
#include <filesystem>
#include <memory>

#include "cli/delivery.hpp"
#include "cli/options.hpp"
#include "cli/scene_input.hpp"
#include "cli/teeth_input.hpp"
#include "cli/verb.hpp"
#include "scene/error.hpp"
#include "sheet/html_page.hpp"
#include "sheet/workshop_sheet.hpp"
#include "view/context.hpp"
#include "view/renderer.hpp"
#include "view/stage.hpp"

namespace couplet {

namespace {

struct PaperArguments {
    std::string scene;
    std::optional<std::string> output;
    std::optional<std::string> setting;
    std::optional<std::string> date;
    bool no_picture = false;
    bool force = false;
    TeethOptions teeth;
};

enum class PaperKind { html, markdown };

PaperKind kind_of(const PaperArguments& arguments) {
    if (!arguments.output)
        throw UsageError("there is no file to write the sheet to; name one with -o, like -o sheet.html");
    const std::string ending = std::filesystem::path(*arguments.output).extension().string();
    if (ending == ".html" || ending == ".htm") return PaperKind::html;
    if (ending == ".md") return PaperKind::markdown;
    throw UsageError(fmt::format("{} does not say what kind of sheet it is to be; end it in .html or .md",
                                 in_quotes(*arguments.output)));
}

std::string today() {
    const std::time_t now = std::time(nullptr);
    std::tm local{};
    localtime_r(&now, &local);
    return fmt::format("{}-{:02}-{:02}", local.tm_year + 1900, local.tm_mon + 1, local.tm_mday);
}

// From the usual side, on white paper.
std::string picture_png(const Train& train, const Motion& motion) {
    constexpr glm::ivec2 kSize_px{1400, 788};
    const Stage stage = stage_of(train);
    StageLook look;
    look.transparent = true;  // no bench to print
    const Camera camera = fitted(turned_to(Camera{}, NamedView::iso), reaches_of(stage, look),
                                 static_cast<double>(kSize_px.x) / kSize_px.y);
    const OffscreenContext context;
    Renderer renderer;
    const Standing standing = standing_at(stage, motion, Ratio(0));
    return png_bytes(renderer.image_of(picture_of(stage, standing, look, camera), kStillQuality, kSize_px));
}

// A machine that cannot draw gets the sheet all the same.
std::optional<std::string> picture_or_none(const PaperArguments& arguments, const WorkshopSheet& sheet) {
    if (arguments.no_picture) return std::nullopt;
    try {
        return picture_png(sheet.sizes.train, sheet.couplings.motion);
    } catch (const std::exception& error) {
        fmt::print(stderr, "couplet: the sheet has no picture of the train: {}\n", error.what());
        return std::nullopt;
    }
}

WorkshopSheet sheet_of(const PaperArguments& arguments, const SceneInput& scene) {
    const Train train = train_with_rack(scene, arguments.teeth);
    const Setting setting = train.settings.empty() ? Setting{} : chosen_setting(scene, arguments.setting);
    if (train.settings.empty() && arguments.setting) (void)chosen_setting(scene, arguments.setting);
    WorkshopSheet sheet;
    sheet.sizes = train_sizes(train, arguments.teeth.match_shifts);
    sheet.couplings = couple(sheet.sizes.train, setting, {});
    sheet.places = train_places(sheet.sizes.train, false, {}, setting);
    sheet.checks = check_train(sheet.sizes.train, {false, Copies::alike, setting});
    sheet.date = arguments.date.value_or(today());
    sheet.picture_png = picture_or_none(arguments, sheet);
    return sheet;
}

// Markdown has its figures in a folder beside it: "capstan.md" in "capstan.pictures".
std::vector<Delivery> deliveries_of(const Page& page, PaperKind kind, const std::filesystem::path& target) {
    if (kind == PaperKind::html) return {{target, {whole_file("", [&page] { return html_page(page); })}, false}};
    const std::string folder = target.stem().string() + ".pictures";
    Delivery figures{target.parent_path() / folder, {}, true};
    for (const Block& block : page.blocks)
        if (const Figure* figure = std::get_if<Figure>(&block))
            figures.files.push_back(whole_file(figure->file, [figure] { return figure->bytes; }));
    const Delivery text{target, {whole_file("", [&page, folder] { return markdown_page(page, folder); })}, false};
    if (figures.files.empty()) return {text};
    return {text, std::move(figures)};
}

int run_sheet(const PaperArguments& arguments) {
    const PaperKind kind = kind_of(arguments);
    const SceneInput scene = load_scene(arguments.scene);
    const WorkshopSheet sheet = of_teeth(scene, [&] { return sheet_of(arguments, scene); });
    const Page page = workshop_page(sheet);
    deliver_together(deliveries_of(page, kind, *arguments.output),
                     arguments.force ? ExistingFiles::replace : ExistingFiles::keep);
    return passes(sheet.checks) ? kDone : kDesignFails;
}

}  // namespace

Verb add_sheet_verb(CLI::App& program) {
    CLI::App* verb = program.add_subcommand("sheet", "all of it on paper: sizes, places, joints, couplings, proof");
    auto arguments = std::make_shared<PaperArguments>();
    verb->add_option("SCENE", arguments->scene, "scene file (TOML); without one, the built-in harbour capstan");
    verb->add_option("-o,--output", arguments->output,
                     "the sheet: .html, one file to read and print, or .md, with its figures in a folder beside it")
        ->type_name("FILE");
    verb->add_option("--setting", arguments->setting, "the setting that moves the train; default: the first")
        ->type_name("NAME");
    verb->add_option("--date", arguments->date, "as it is printed; default: today")->type_name("DATE");
    verb->add_flag("--no-picture", arguments->no_picture, "leave the picture of the train away");
    verb->add_flag("--force", arguments->force, "replace a file that is there already");
    add_teeth_options(*verb, arguments->teeth);
    return {verb, [arguments] { return run_sheet(*arguments); }};
}

}  // namespace couplet
