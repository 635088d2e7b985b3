#include "app/main_loop.hpp"

#include <backends/imgui_impl_glfw.h>
#include <backends/imgui_impl_opengl3.h>
#include <fmt/format.h>
#include <imgui.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <csignal>
#include <cstdio>
#include <limits>

#include "app/key_queue.hpp"
#include "app/keyboard.hpp"
#include "app/main_screen.hpp"
#include "app/stage_frame.hpp"
#include "app/stage_hand.hpp"
#include "app/stage_view.hpp"
#include "app/state_dump.hpp"
#include "view/window_context.hpp"
// After the view's headers: GLFW brings no OpenGL header of its own.
#define GLFW_INCLUDE_NONE
#include <GLFW/glfw3.h>

namespace couplet {

namespace {

volatile std::sig_atomic_t dump_was_asked = 0;

constexpr double kFileLook_s = 1.0;
constexpr double kFrame_s = 1.0 / 60;
constexpr double kFading_s = 0.5;  // a note grows faint in its last half second
constexpr double kCaret_s = 0.4;   // of a field that is written in: it blinks
constexpr double kFlight_s = 0.35;
constexpr double kJobLook_s = 0.25;
constexpr double kFindLook_s = 0.1;
// Dear ImGui answers an event over a few frames.
constexpr int kFramesPerEvent = 3;

double seconds_since(std::chrono::steady_clock::time_point begin) {
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
}

// What the window's callbacks leave for the loop.
struct Inbox {
    int frames_wanted = kFramesPerEvent;
    std::vector<std::filesystem::path> dropped;
    KeyQueue keys;
};

Inbox& inbox_of(GLFWwindow* window) {
    return *static_cast<Inbox*>(glfwGetWindowUserPointer(window));
}

void want_frames(GLFWwindow* window) {
    inbox_of(window).frames_wanted = kFramesPerEvent;
}

// Before Dear ImGui sets its own, which call these too.
void set_callbacks(GLFWwindow* window, Inbox& inbox) {
    glfwSetWindowUserPointer(window, &inbox);
    glfwSetCursorPosCallback(window, [](GLFWwindow* w, double, double) { want_frames(w); });
    glfwSetMouseButtonCallback(window, [](GLFWwindow* w, int, int, int) { want_frames(w); });
    glfwSetScrollCallback(window, [](GLFWwindow* w, double, double) { want_frames(w); });
    glfwSetCursorEnterCallback(window, [](GLFWwindow* w, int) { want_frames(w); });
    glfwSetWindowFocusCallback(window, [](GLFWwindow* w, int) { want_frames(w); });
    glfwSetFramebufferSizeCallback(window, [](GLFWwindow* w, int, int) { want_frames(w); });
    glfwSetWindowRefreshCallback(window, [](GLFWwindow* w) { want_frames(w); });
    glfwSetWindowCloseCallback(window, [](GLFWwindow* w) { want_frames(w); });
    glfwSetDropCallback(window, [](GLFWwindow* w, int count, const char** paths) {
        want_frames(w);
        inbox_of(w).dropped.assign(paths, paths + count);
    });
}

// After Dear ImGui has set its own, in their place.
void set_key_callbacks(GLFWwindow* window) {
    glfwSetKeyCallback(window, [](GLFWwindow* w, int key, int scancode, int action, int /*modifiers*/) {
        want_frames(w);
        inbox_of(w).keys.key(key, scancode, action);
    });
    glfwSetCharCallback(window, [](GLFWwindow* w, unsigned code) {
        want_frames(w);
        inbox_of(w).keys.letter(code);
    });
}

// Dear ImGui's context and backends, from beginning to end.
class Interface {
  public:
    explicit Interface(GLFWwindow* window) {
        ImGui::CreateContext();
        ImGuiIO& io = ImGui::GetIO();
        io.IniFilename = nullptr;
        io.ConfigFlags |= ImGuiConfigFlags_NavEnableKeyboard;
        ImGui_ImplGlfw_InitForOpenGL(window, true);
        ImGui_ImplOpenGL3_Init("#version 330 core");
    }
    ~Interface() {
        ImGui_ImplOpenGL3_Shutdown();
        ImGui_ImplGlfw_Shutdown();
        ImGui::DestroyContext();
    }
    Interface(const Interface&) = delete;
    Interface& operator=(const Interface&) = delete;
};

// A camera on its way to another one.
struct Flight {
    Camera from;
    Camera to;
    double begin_s = 0.0;
    Camera at = from;  // where it has come; another camera than this was put there by someone else, and stays
};

class WindowLoop {
  public:
    explicit WindowLoop(const WindowWishes& wishes)
        : wishes_(wishes),
          session_(open_session(wishes.scene, wishes.keepsakes)),
          context_("Couplet", wishes.size),
          window_(context_.handle()) {
        collect_errors();
        set_callbacks(window_, inbox_);
        interface_.emplace(window_);
        set_key_callbacks(window_);
        glfwSetWindowSizeLimits(window_, 640, 480, GLFW_DONT_CARE, GLFW_DONT_CARE);
        glfwSwapInterval(1);
        follow_wishes();
    }

    void run() {
        while (glfwWindowShouldClose(window_) == 0) {
            wait();
            if (inbox_.frames_wanted > 0) frame();
            if (dump_was_asked != 0) answer();
        }
        close_session(session_);
        dump();
    }

  private:
    [[nodiscard]] double now_s() const { return seconds_since(begin_); }
    [[nodiscard]] bool is_moving() const { return session_.view.running || flight_ || session_.view.preview_since_s; }

    [[nodiscard]] bool is_finding() const { return session_.find_job && !session_.find_job->progress().is_over; }

    void follow_wishes();
    void wait();
    [[nodiscard]] double frame_due_s() const;
    void look_after_time();
    void frame();
    void take_time(double now);
    void open_dropped(Edits& edits);
    void dress_anew();
    [[nodiscard]] MouseOnStage mouse_on_stage(const Places_px& places, const Camera& shown) const;
    void move_hand(const Places_px& places, Edits& edits);
    void move_camera(const Places_px& places);
    void hand_over();
    void answer();
    void dump() const;

    WindowWishes wishes_;
    std::chrono::steady_clock::time_point begin_ = std::chrono::steady_clock::now();
    Session session_;
    WindowContext context_;
    GLFWwindow* window_;
    Inbox inbox_;
    std::optional<Interface> interface_;
    StageView stage_view_;
    StageHand hand_;
    Picker picker_{*session_.stage};
    unsigned picked_stage_ = session_.stage_count;
    Screen screen_;
    Daylight dressed_ = Daylight::light;
    std::optional<Flight> flight_;
    std::optional<std::size_t> gap_visited_;
    bool first_fit_ = true;
    double last_frame_s_ = 0.0;
    double next_look_s_ = kFileLook_s;
    double next_job_look_s_ = 0.0;   // while something is being recorded
    double next_find_look_s_ = 0.0;  // while tooth counts are looked for
    std::uint64_t frames_ = 0;
    std::uint64_t found_at_frame_ = 0;
    double first_frame_s_ = 0.0;
    std::string title_;
};

void WindowLoop::follow_wishes() {
    ViewState& view = session_.view;
    const Train& train = session_.train();
    if (wishes_.setting) {
        const std::optional<SettingIndex> setting = find_setting(train, *wishes_.setting);
        if (!setting) throw std::runtime_error(fmt::format("the scene has no setting '{}'", *wishes_.setting));
        apply(session_, {view, {ChooseSetting{*setting}}}, 0);
    }
    if (wishes_.observer) {
        const std::optional<MemberIndex> observer = find_member(train, *wishes_.observer);
        if (!observer) throw std::runtime_error(fmt::format("the scene has no member '{}'", *wishes_.observer));
        view.look.observer = *observer;
    }
    if (wishes_.panel) view.open = wishes_.panel;
    if (wishes_.look) view.look.look = *wishes_.look;
    view.camera = turned_to(view.camera, wishes_.view.value_or(NamedView::iso));
    view.running = wishes_.run;
}

// When the next frame is due though nobody asks for one; infinity where nothing moves.
double WindowLoop::frame_due_s() const {
    double due = std::numeric_limits<double>::infinity();
    const double next_frame_s = last_frame_s_ + kFrame_s;
    if (is_moving() || screen_.wants_frame || wishes_.when_still) due = next_frame_s;
    if (ImGui::GetIO().WantTextInput) due = std::min(due, last_frame_s_ + kCaret_s);
    if (const std::optional<double> finer = stage_view_.finer_at_s()) due = std::min(due, *finer);
    for (const Notice& notice : session_.notices)
        if (notice.fades_at_s > 0) due = std::min(due, std::max(notice.fades_at_s - kFading_s, next_frame_s));
    return due;
}

// Sleeps until something happens or something is due.
void WindowLoop::wait() {
    double due_s = std::min(next_look_s_, frame_due_s());
    if (session_.job) due_s = std::min(due_s, next_job_look_s_);
    if (is_finding()) due_s = std::min(due_s, next_find_look_s_);
    const double left = due_s - now_s();
    if (inbox_.frames_wanted > 0 || left <= 0)
        glfwPollEvents();
    else
        glfwWaitEventsTimeout(left);
    look_after_time();
}

void WindowLoop::look_after_time() {
    const double now = now_s();
    if (now >= next_look_s_) {
        next_look_s_ = now + kFileLook_s;
        if (look_after_files(session_, now)) want_frames(window_);
    }
    if (session_.job && now >= next_job_look_s_) {
        next_job_look_s_ = now + kJobLook_s;
        if (look_after_job(session_, now)) want_frames(window_);
    }
    if (is_finding() && now >= next_find_look_s_) {
        next_find_look_s_ = now + kFindLook_s;
        if (look_after_find(session_)) want_frames(window_);
    }
    if (frame_due_s() <= now) inbox_.frames_wanted = std::max(inbox_.frames_wanted, 1);
}

void WindowLoop::dress_anew() {
    float across = 1.0F;
    float down = 1.0F;
    glfwGetWindowContentScale(window_, &across, &down);
    const double wished = wishes_.scale.value_or(session_.preferences.scale.value_or(across));
    // In quarters, so that strokes stay sharp.
    const auto scale = static_cast<float>(std::clamp(std::round(wished * 4) / 4, 0.75, 4.0));
    if (screen_.theme != nullptr && scale == screen_.scale && dressed_ == session_.preferences.daylight) return;
    const bool new_letters = screen_.theme == nullptr || scale != screen_.scale;
    dressed_ = session_.preferences.daylight;
    screen_.theme = &theme_of(dressed_);
    screen_.scale = scale;
    if (!new_letters) {
        colour_style(*screen_.theme);
        return;
    }
    screen_.fonts = dress(*screen_.theme, scale);
    ImGui::GetIO().FontDefault = screen_.fonts.text;
    ImGui_ImplOpenGL3_DestroyFontsTexture();
    ImGui_ImplOpenGL3_CreateFontsTexture();
}

MouseOnStage WindowLoop::mouse_on_stage(const Places_px& places, const Camera& shown) const {
    const ImGuiIO& io = ImGui::GetIO();
    MouseOnStage mouse;
    mouse.cursor_px = {io.MousePos.x, io.MousePos.y};
    mouse.cursor = in_window(io.MousePos, places.window);
    mouse.is_over_stage = !io.WantCaptureMouse && ImGui::IsMousePosValid();
    mouse.left_down = io.MouseDown[0] && !io.KeyShift;
    mouse.shift_down = io.MouseDown[1] || io.MouseDown[2] || (io.MouseDown[0] && io.KeyShift);
    mouse.wheel = mouse.is_over_stage ? static_cast<double>(io.MouseWheel) : 0.0;
    mouse.width_over_height = static_cast<double>(places.window.x) / places.window.y;
    mouse.shown = shown;
    mouse.middle = free_middle(places);
    return mouse;
}

// While the stage previews a clip there is nothing to take hold of: what the hand does there ends the preview.
void WindowLoop::move_hand(const Places_px& places, Edits& edits) {
    const ViewState& view = edits.view;
    MouseOnStage mouse = mouse_on_stage(places, shown_camera(session_.view.camera, places));
    if (view.preview_since_s) {
        const bool acts = mouse.is_over_stage && (mouse.left_down || mouse.shift_down || mouse.wheel != 0);
        if (acts || view.fit_camera || view.go_to || view.open != Step::record) edits.view.preview_since_s.reset();
        mouse.is_over_stage = false;
    }
    hand_.move(mouse, session_, standing_now(session_), picker_, edits);
}

// Cameras that were asked for by name are flown to.
void WindowLoop::move_camera(const Places_px& places) {
    ViewState& view = session_.view;
    const double now = now_s();
    if (view.mesh_shown != gap_visited_) {
        const Camera from = view.camera;
        if (view.mesh_shown)
            go_to_gap(session_, places, *view.mesh_shown);
        else
            view.camera = fitted_between(turned_to(view.camera, NamedView::iso), *session_.stage, view.look, places);
        flight_ = Flight{from, view.camera, now};
        gap_visited_ = view.mesh_shown;
    }
    if (view.fit_camera || view.go_to) {
        const Camera from = view.camera;
        const Camera turned = view.go_to ? turned_to(from, *view.go_to) : from;
        flight_ = Flight{from, fitted_between(turned, *session_.stage, view.look, places), now};
        if (first_fit_) flight_->begin_s = now - kFlight_s;
        first_fit_ = false;
        view.fit_camera = false;
        view.go_to.reset();
    }
    if (flight_ && !(view.camera == flight_->at)) flight_.reset();
    if (!flight_) return;
    const double part = std::clamp((now - flight_->begin_s) / kFlight_s, 0.0, 1.0);
    view.camera = flight_->at = between(flight_->from, flight_->to, part);
    if (part >= 1.0) flight_.reset();
    want_frames(window_);
}

void WindowLoop::take_time(double now) {
    // After a pause the train goes on from where it stood, it does not jump.
    const double passed = std::min(now - last_frame_s_, 0.25);
    last_frame_s_ = now;
    ImGui::GetIO().DeltaTime = static_cast<float>(std::max(passed, 1e-4));
    if (!hand_.is_busy() && !session_.view.preview_since_s) (void)run_for(session_, passed);
}

// A window shows one scene.
void WindowLoop::open_dropped(Edits& edits) {
    if (inbox_.dropped.empty()) return;
    if (inbox_.dropped.size() > 1)
        edits.ask(Tell{fmt::format("{} files were dropped: the first one is opened", inbox_.dropped.size())});
    edits.ask(OpenScene{inbox_.dropped.front()});
    inbox_.dropped.clear();
}

// What the frame has to give to the desktop.
void WindowLoop::hand_over() {
    if (session_.clipboard) glfwSetClipboardString(window_, session_.clipboard->c_str());
    session_.clipboard.reset();
    const std::string& train_title = session_.train().title;
    const std::string title = fmt::format("{}{} - Couplet", train_title.empty() ? session_.file.name : train_title,
                                          session_.is_saved() ? "" : " *");
    if (title != title_) glfwSetWindowTitle(window_, title.c_str());
    title_ = title;
    if (picked_stage_ == session_.stage_count) return;
    picker_ = Picker(*session_.stage);
    picked_stage_ = session_.stage_count;
}

// One frame from top to bottom: input, edits, what follows from them, the stage, the panels over it, and out.
void WindowLoop::frame() {
    --inbox_.frames_wanted;
    const glm::ivec2 size_px = context_.size_px();
    if (size_px.x == 0 || size_px.y == 0) {
        last_frame_s_ = now_s();
        return;
    }
    dress_anew();
    ImGui_ImplOpenGL3_NewFrame();
    ImGui_ImplGlfw_NewFrame();
    take_time(now_s());
    inbox_.keys.hand_over();
    if (!inbox_.keys.is_empty()) want_frames(window_);
    ImGui::NewFrame();
    screen_.wants_frame = false;

    Edits edits{session_.view, {}};
    edits.view.pointed.reset();
    if (obey_keys(screen_, session_, edits) == AfterKeys::quit) glfwSetWindowShouldClose(window_, GLFW_TRUE);
    screen_.said.clear();
    open_dropped(edits);
    const Places_px places = places_px(screen_, session_.view, ImGui::GetIO().DisplaySize);
    move_hand(places, edits);
    const Fineness told = stage_view_.fineness();
    draw_main_screen(screen_, session_, edits, places, hand_.under_cursor(), told);
    const bool changed = !edits.commands.empty();
    apply(session_, edits, now_s());
    move_camera(places);
    hand_over();
    if (changed) want_frames(window_);

    stage_view_.draw(session_, moment_on_stage(session_, places, now_s()), size_px, now_s());
    ImGui::Render();
    ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
    // A panel has its final layout a few frames after it opened, or has found what it was looking for.
    constexpr std::uint64_t kLaidOut = 4;
    if (is_finding()) found_at_frame_ = frames_;
    if (wishes_.when_still && frames_ > found_at_frame_ + kLaidOut && told == Fineness::full) {
        wishes_.when_still(context_.drawn());
        glfwSetWindowShouldClose(window_, GLFW_TRUE);
    }
    context_.show();
    if (frames_++ == 0) first_frame_s_ = now_s();
    if (wishes_.frames && frames_ >= *wishes_.frames) glfwSetWindowShouldClose(window_, GLFW_TRUE);
}

// With what was done before the question on the screen.
void WindowLoop::answer() {
    if (inbox_.frames_wanted <= 0) glfwPollEvents();
    if (inbox_.frames_wanted <= 0) dump();
}

void WindowLoop::dump() const {
    dump_was_asked = 0;
    if (!wishes_.dump_state) return;
    WindowFacts facts;
    const glm::ivec2 size_px = context_.size_px();
    facts.width_px = size_px.x;
    facts.height_px = size_px.y;
    const Places_px places = places_px(screen_, session_.view, ImGui::GetIO().DisplaySize);
    facts.stage_px = {static_cast<int>(places.stage_from.x), static_cast<int>(places.stage_from.y),
                      static_cast<int>(places.stage_to.x), static_cast<int>(places.stage_to.y)};
    constexpr const char* kNames[] = {"full", "light", "half"};
    facts.picture = kNames[static_cast<int>(stage_view_.fineness())];
    facts.frames = frames_;
    facts.stage_frames = stage_view_.pictures();
    facts.first_frame_s = first_frame_s_;
    facts.gl_errors = collected_errors();
    const std::string text = state_dump(session_, screen_, facts);
    if (*wishes_.dump_state == "-") {
        std::fputs(text.c_str(), stdout);
        std::fflush(stdout);
        return;
    }
    save_scene_text(*wishes_.dump_state, text);
}

}  // namespace

void run_window(const WindowWishes& wishes) {
#ifdef SIGUSR1
    std::signal(SIGUSR1, [](int) { dump_was_asked = 1; });
#endif
    WindowLoop(wishes).run();
}

}  // namespace couplet
