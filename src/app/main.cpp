#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <cstdio>

#include "app/main_loop.hpp"
#include "exact/decimal.hpp"
#include "view/context.hpp"

namespace {

using couplet::Look;
using couplet::NamedView;
using couplet::Step;
using couplet::WindowWishes;

constexpr int kDone = 0;
constexpr int kBadInput = 2;

const std::map<std::string, Step> kPanels = {{"scene", Step::scene},   {"find", Step::find},     {"size", Step::size},
                                             {"place", Step::place},   {"couple", Step::couple}, {"watch", Step::watch},
                                             {"record", Step::record}, {"keys", Step::keys}};
const std::map<std::string, Look> kLooks = {{"metal", Look::metal}, {"clay", Look::clay}, {"line", Look::line}};
const std::map<std::string, NamedView> kViews = {
    {"iso", NamedView::iso},   {"top", NamedView::top},   {"bottom", NamedView::bottom}, {"front", NamedView::front},
    {"back", NamedView::back}, {"left", NamedView::left}, {"right", NamedView::right}};

glm::ivec2 size_of(const std::string& text) {
    int width = 0;
    int height = 0;
    char rest = 0;
    // NOLINTNEXTLINE(cert-err34-c): what was read is checked
    if (std::sscanf(text.c_str(), "%dx%d%c", &width, &height, &rest) != 2 || width < 640 || height < 480 ||
        width > 16384 || height > 16384)
        throw std::runtime_error(
            fmt::format("--size '{}' is no size of a window; write it like 1280x800, at least 640x480", text));
    return {width, height};
}

WindowWishes wishes_of(int count, char** arguments) {
    CLI::App program("The window of Couplet: watch a gear train turn, hold any member, copy the numbers to type.");
    program.name("couplet");
    WindowWishes wishes;
    std::string scene;
    std::string size;
    Step panel{};
    Look look{};
    NamedView view{};
    double scale = 0;
    program.add_option("SCENE", scene, "scene file (TOML); without one, the built-in harbour capstan");
    program.add_option("--setting", wishes.setting, "the setting to begin with")->type_name("NAME");
    program.add_option("--observer", wishes.observer, "the member that the view rides on")->type_name("NAME");
    CLI::Option* has_panel = program.add_option("--panel", panel, "scene, size, place, couple, watch, record or keys")
                                 ->transform(CLI::CheckedTransformer(kPanels));
    CLI::Option* has_look =
        program.add_option("--look", look, "metal, clay or line")->transform(CLI::CheckedTransformer(kLooks));
    CLI::Option* has_view = program.add_option("--view", view, "iso, top, bottom, front, back, left or right")
                                ->transform(CLI::CheckedTransformer(kViews));
    program.add_flag("--run", wishes.run, "begin with the train turning");
    program.add_option("--size", size, "of the window; default 1280x800")->type_name("WxH");
    CLI::Option* has_scale = program.add_option("--scale", scale, "of text and signs; default: what the screen says")
                                 ->check(CLI::Range(0.75, 4.0));
    program
        .add_option("--dump-state", wishes.dump_state,
                    "write what the window shows, as JSON, at the end and on SIGUSR1; - is standard output")
        ->type_name("FILE");
    program.add_option("--frames", wishes.frames, "close after so many frames")->type_name("COUNT");
    wishes.keepsakes = couplet::keepsake_folder();
    program.add_option("--keepsakes", wishes.keepsakes, "folder for recent scenes and unsaved work")->type_name("DIR");
    try {
        program.parse(count, arguments);
    } catch (const CLI::CallForHelp&) {
        std::fputs(program.help().c_str(), stdout);
        std::exit(kDone);
    }
    wishes.scene = scene;
    if (!size.empty()) wishes.size = size_of(size);
    if (has_panel->count() > 0) wishes.panel = panel;
    if (has_look->count() > 0) wishes.look = look;
    if (has_view->count() > 0) wishes.view = view;
    if (has_scale->count() > 0) wishes.scale = scale;
    return wishes;
}

}  // namespace

int main(int count, char** arguments) {
    try {
        couplet::run_window(wishes_of(count, arguments));
        return kDone;
    } catch (const std::exception& error) {
        std::fprintf(stderr, "couplet: %s\n", error.what());
        return kBadInput;
    }
}
