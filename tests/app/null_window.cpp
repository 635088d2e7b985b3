#include "app/null_window.hpp"

#include <gtest/gtest.h>
#include <unistd.h>

#include <filesystem>

#include "scene/scene.hpp"

namespace couplet {

namespace {

constexpr float kHeight_px = 4000;

std::filesystem::path no_keepsakes() {
    return std::filesystem::temp_directory_path() / ("couplet_null_window_" + std::to_string(getpid()));
}

}  // namespace

NullWindow::NullWindow(const std::string& scene_text, Draw draw, Daylight light, float scale) : draw_(std::move(draw)) {
    ImGui::CreateContext();
    ImGuiIO& io = ImGui::GetIO();
    io.IniFilename = nullptr;
    io.DisplaySize = {1280 * scale, kHeight_px * scale};
    io.DeltaTime = 1.0F / 60;
    io.ConfigFlags |= ImGuiConfigFlags_NavEnableKeyboard;
    for (int key = 0; key < ImGuiKey_COUNT; ++key) io.KeyMap[key] = key;
    screen.theme = &theme_of(light);
    screen.scale = scale;
    screen.fonts = dress(*screen.theme, scale);
    unsigned char* pixels = nullptr;
    int width = 0;
    int height = 0;
    io.Fonts->GetTexDataAsAlpha8(&pixels, &width, &height);
    io.Fonts->SetTexID(nullptr);
    io.FontDefault = screen.fonts.text;
    session = open_session({}, no_keepsakes());
    if (!scene_text.empty()) {
        // As the panels would do it: a change of the draft.
        Edits edits{session.view, {}};
        edits.change("test", draft_of(read_scene(scene_text, "test")));
        apply(session, edits, 0);
    }
    frame(2);
}

NullWindow::~NullWindow() {
    ImGui::DestroyContext();
    std::error_code ignored;
    std::filesystem::remove_all(no_keepsakes(), ignored);
}

void NullWindow::frame(int count) {
    for (int i = 0; i < count; ++i) {
        ImGui::NewFrame();
        screen.said.clear();
        screen.panel = "panel";
        Edits edits{session.view, {}};
        edits.view.pointed.reset();
        ImGui::SetNextWindowPos({0, 0});
        ImGui::SetNextWindowSize({screen.px(420), screen.px(kHeight_px)});
        ImGui::Begin("panel", nullptr, ImGuiWindowFlags_NoTitleBar | ImGuiWindowFlags_NoResize);
        draw_(screen, session, edits);
        ImGui::End();
        ImGui::Render();
        last_commands.insert(last_commands.end(), edits.commands.begin(), edits.commands.end());
        apply(session, edits, session.now_s + 1.0 / 60);
    }
}

Said NullWindow::said(const std::string& name) const {
    std::vector<Said> found;
    for (const Said& one : screen.said)
        if (one.name.ends_with("/" + name) || one.name == name) found.push_back(one);
    if (found.size() == 1) return found.front();
    std::string names;
    for (const Said& one : screen.said) names += "\n  " + one.role + " " + one.name + " = " + one.value;
    ADD_FAILURE() << found.size() << " things are called " << name << " among" << names;
    return {};
}

bool NullWindow::says(const std::string& name) const {
    return std::ranges::any_of(screen.said, [&](const Said& one) { return one.name.ends_with("/" + name); });
}

bool NullWindow::shows(const std::string& text) const {
    return std::ranges::any_of(screen.said, [&](const Said& one) { return one.value.find(text) != std::string::npos; });
}

void NullWindow::hover(const std::string& name) {
    const Said target = said(name);
    ImGui::GetIO().MousePos = {0.5F * (target.box_px[0] + target.box_px[2]),
                               0.5F * (target.box_px[1] + target.box_px[3])};
    frame(2);
}

void NullWindow::click(const std::string& name) {
    last_commands.clear();
    hover(name);
    ImGui::GetIO().MouseDown[0] = true;
    frame();
    ImGui::GetIO().MouseDown[0] = false;
    frame(2);
}

void NullWindow::drag(ImVec2 from, ImVec2 to, int steps) {
    last_commands.clear();
    ImGuiIO& io = ImGui::GetIO();
    io.MousePos = from;
    frame(2);
    io.MouseDown[0] = true;
    frame();
    for (int i = 1; i <= steps; ++i) {
        const float part = static_cast<float>(i) / static_cast<float>(steps);
        io.MousePos = {from.x + part * (to.x - from.x), from.y + part * (to.y - from.y)};
        frame();
    }
    io.MouseDown[0] = false;
    frame(2);
}

void NullWindow::type(const std::string& name, const std::string& text) {
    click(name);
    last_commands.clear();
    // A click selects the whole text (ImGuiInputTextFlags_AutoSelectAll).
    if (text.empty()) press(ImGuiKey_Delete);
    for (const char letter : text) ImGui::GetIO().AddInputCharacter(static_cast<unsigned char>(letter));
    frame();
    press(ImGuiKey_Enter);
}

void NullWindow::press(ImGuiKey key) {
    ImGui::GetIO().KeysDown[key] = true;
    frame();
    ImGui::GetIO().KeysDown[key] = false;
    frame(2);
}

}  // namespace couplet
