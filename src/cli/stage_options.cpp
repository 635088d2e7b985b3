#include "cli/stage_options.hpp"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <cmath>
#include <cstdio>
#include <numbers>

#include "cli/options.hpp"
#include "exact/decimal.hpp"
#include "scene/error.hpp"

namespace couplet {

namespace {

constexpr int kLargestSide_px = 16384;

Look look_of(const std::string& word) {
    if (word == "metal") return Look::metal;
    if (word == "clay") return Look::clay;
    if (word == "line") return Look::line;
    refuse_word("--look", word, {"metal", "clay", "line"});
}

NamedView view_of(const std::string& word) {
    if (const std::optional<NamedView> view = named_view(word)) return *view;
    refuse_word("--view", word, {std::begin(kNamedViews), std::end(kNamedViews)});
}

bool marks_of(const std::string& word) {
    if (word == "on" || word == "off") return word == "on";
    refuse_word("--marks", word, {"on", "off"});
}

void show_overlay(StageLook& look, const std::string& word) {
    if (word == "pitch")
        look.pitch_circles = true;
    else if (word == "centres")
        look.centre_lines = true;
    else if (word == "speeds")
        look.arrows = true;
    else if (word == "contacts")
        look.contacts = true;
    else if (word == "names")
        look.names = true;
    else
        refuse_word("--show", word, {"pitch", "centres", "speeds", "contacts", "names"});
}

float linear(int byte) {
    const double s = byte / 255.0;
    return static_cast<float>(s <= 0.04045 ? s / 12.92 : std::pow((s + 0.055) / 1.055, 2.4));
}

Material material_of(const std::string& word) {
    if (word == "brass") return {Finish::brass, {}};
    if (word == "steel") return {Finish::steel, {}};
    if (word == "bronze") return {Finish::bronze, {}};
    if (word == "black") return {Finish::oxide_black, {}};
    unsigned rgb = 0;
    const bool hex = word.size() == 7 && word[0] == '#' &&
                     word.find_first_not_of("0123456789abcdefABCDEF", 1) == std::string::npos &&
                     std::sscanf(word.c_str() + 1, "%x", &rgb) == 1;  // NOLINT(cert-err34-c): the digits were checked
    if (!hex) refuse_word("--finish", word, {"brass", "steel", "bronze", "black", "#rrggbb"});
    return {Finish::painted,
            {linear(static_cast<int>(rgb >> 16U & 255U)), linear(static_cast<int>(rgb >> 8U & 255U)),
             linear(static_cast<int>(rgb & 255U))}};
}

// "NAME=FINISH"
void set_finish(StageLook& look, const Train& train, const std::string& text) {
    const std::size_t sign = text.rfind('=');
    if (sign == std::string::npos)
        throw UsageError(
            fmt::format("--finish {} says no finish; write it like ring=brass or ring=#2a6f97", in_quotes(text)));
    look.materials.resize(train.members.size());
    look.materials[turning_member_of(train, text.substr(0, sign)).position()] = material_of(text.substr(sign + 1));
}

constexpr double kDegree = std::numbers::pi / 180;

}  // namespace

double number_within(std::string_view option, const std::string& text, double least, double most,
                     std::string_view example) {
    const double value = number_of(option, text, example).to_double();
    if (value >= least && value <= most) return value;
    throw UsageError(fmt::format("{} {} is out of range; it goes from {} to {}", option, text, least, most));
}
glm::ivec2 size_of(const StageOptions& options) {
    const std::string& text = options.size;
    const std::size_t cross = text.find('x');
    const auto side = [&](const std::string& part) {
        const std::optional<Ratio> number = parse_ratio(part);
        if (!number || !number->is_whole() || *number < Ratio(16) || *number > Ratio(kLargestSide_px))
            throw UsageError(
                fmt::format("--size {} is no size; write it like 1920x1080, each side from 16 to {} pixels",
                            in_quotes(text), kLargestSide_px));
        return static_cast<int>(number->small_numerator());
    };
    if (cross == std::string::npos) return {side(""), 0};
    return {side(text.substr(0, cross)), side(text.substr(cross + 1))};
}
Quality quality_of(const StageOptions& options) {
    const std::string& word = options.quality;
    if (word == "full") return kStillQuality;
    if (word == "light") return kLightQuality;
    refuse_word("--quality", word, {"full", "light"});
}
StageLook stage_look(const StageOptions& options, const Train& train) {
    StageLook look;
    look.look = look_of(options.look);
    look.observer = member_of(train, options.observer);
    look.marks = marks_of(options.marks);
    look.spread = number_within("--spread", options.spread, 0, 1, "0.5");
    look.cutaway = options.cutaway;
    look.transparent = options.transparent;
    for (const std::string& word : options.show) show_overlay(look, word);
    for (const std::string& text : options.finishes) set_finish(look, train, text);
    return look;
}
Camera turned_camera(const StageOptions& options) {
    Camera camera = turned_to(Camera{}, view_of(options.view));
    if (options.azimuth) camera.azimuth_rad = number_within("--azimuth", *options.azimuth, -360, 360, "30") * kDegree;
    if (options.elevation)
        camera.elevation_rad = number_within("--elevation", *options.elevation, -90, 90, "35") * kDegree;
    return camera;
}

double zoom_of(const StageOptions& options) {
    return number_within("--zoom", options.zoom, 0.01, 1000, "2");
}

Camera aimed(const StageOptions& options, Camera camera, const Stage& stage, const Standing& standing,
             const StageLook& look) {
    camera.distance_mm /= zoom_of(options);
    if (!options.at) return camera;
    return looking_at(camera, stage, standing, look, turning_member_of(stage.train, *options.at));
}

void add_stage_options(CLI::App& verb, StageOptions& options, const std::string& usual_size) {
    options.size = usual_size;
    verb.add_option("--size", options.size, "pixels of the picture; default " + usual_size)->type_name("WxH");
    verb.add_option("--observer", options.observer, "the member that the view rides on; default: the frame")
        ->type_name("NAME");
    verb.add_option("--look", options.look, "metal (default), clay, or line for a technical drawing")
        ->type_name("LOOK");
    verb.add_option("--view", options.view, "iso (default), top, bottom, front, back, left or right")
        ->type_name("VIEW");
    verb.add_option("--azimuth", options.azimuth, "turn the view round the upright, in degrees; 0 is the front")
        ->type_name("DEG");
    verb.add_option("--elevation", options.elevation, "look down by so many degrees")->type_name("DEG");
    verb.add_option("--zoom", options.zoom, "come closer, 2 shows everything twice as large; default 1")
        ->type_name("FACTOR");
    verb.add_option("--at", options.at, "look at this member instead of the middle")->type_name("NAME");
    verb.add_option("--marks", options.marks, "tooth marks on (default) or off")->type_name("on|off");
    verb.add_option("--spread", options.spread, "pull the parts apart along their axes, 0 (default) to 1")
        ->type_name("PART");
    verb.add_flag("--cutaway", options.cutaway, "cut open what hides the meshes");
    verb.add_option("--show", options.show,
                    "draw over the picture (repeatable): pitch circles, centres, speeds, contacts, names")
        ->delimiter(',')
        ->allow_extra_args(false)
        ->type_name("WHAT");
    verb.add_option("--finish", options.finishes,
                    "what a member is made of (repeatable): brass, steel, bronze, black or a colour as #rrggbb")
        ->allow_extra_args(false)
        ->type_name("NAME=FINISH");
    verb.add_flag("--transparent", options.transparent, "no bench and no background: alpha, with the shadow in it");
    verb.add_option("--quality", options.quality, "full (default) or light: fewer samples, less shade")
        ->type_name("QUALITY");
}

}  // namespace couplet
