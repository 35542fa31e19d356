#include "ui/shell/window.h"

#include "ui/shell/heard_keys.h"
#include "ui/shell/picture.h"

#include <GLFW/glfw3.h>
#include <imgui.h>

#include <algorithm>
#include <array>
#include <backends/imgui_impl_opengl3.h>
#include <chrono>
#include <limits>
#include <stdexcept>
#include <utility>

namespace mellowbin::ui {

namespace {

using Clock = std::chrono::steady_clock;

std::string& last_glfw_error() {
    static std::string words;
    return words;
}

/// Of the one window there is: its callback gets no more than the frame.
std::vector<std::string>& dropped_files() {
    static std::vector<std::string> paths;
    return paths;
}

HeardKeys& keyboard() {
    static HeardKeys keys;
    return keys;
}

/// The same of the one that is asked before it is closed.
std::function<bool()>& closing_asked() {
    static std::function<bool()> may_close;
    return may_close;
}

bool start_glfw() {
    glfwSetErrorCallback([](int, const char* words) { last_glfw_error() = words; });
    return glfwInit() == GLFW_TRUE;
}

[[noreturn]] void refuse(const std::string& what) {
    const std::string why = last_glfw_error().empty() ? "" : " (" + last_glfw_error() + ")";
    throw std::runtime_error(what + why);
}

GLFWwindow* open_window(const WindowSetup& setup) {
    if (!start_glfw())
        refuse("There is no display to open a window on. The command line does the same work without one");
    // 3.3 core where there is one; old machines have 3.0.
    for (const bool modern : {true, false}) {
        glfwDefaultWindowHints();
        glfwWindowHint(GLFW_CONTEXT_VERSION_MAJOR, 3);
        glfwWindowHint(GLFW_CONTEXT_VERSION_MINOR, modern ? 3 : 0);
        if (modern)
            glfwWindowHint(GLFW_OPENGL_PROFILE, GLFW_OPENGL_CORE_PROFILE);
        glfwWindowHint(GLFW_VISIBLE, GLFW_FALSE); // shown with its first picture, not white
        glfwWindowHint(GLFW_SCALE_TO_MONITOR, setup.shown == Shown::yes ? GLFW_TRUE : GLFW_FALSE);
        GLFWwindow* window =
            glfwCreateWindow(setup.width, setup.height, setup.title.c_str(), nullptr, nullptr);
        if (window)
            return window;
    }
    refuse("The window needs OpenGL 3.0 or later, and this display does not give it");
}

} // namespace

struct Window::State {
    Clock::time_point made = Clock::now();
    double first_picture = 0;
    Shown shown = Shown::yes;
    bool is_seen = false;
    GLFWwindow* window = nullptr;
    std::unique_ptr<Frame> frame;
    std::array<GLFWcursor*, 4> cursors{};
    Clock::time_point last_frame = Clock::now();
    double longest_wait = std::numeric_limits<double>::infinity(); ///< seconds, for the next wait alone
    double looked = 0;                                             ///< when what came was fetched last

    void listen();
    void wait_for_what_comes(bool is_first);
    void follow_size();
    void draw_settled(const std::function<void()>& draw, int least);
    void paint();
    void draw_and_show(const std::function<void()>& draw);
};

namespace {

Frame& frame_of(GLFWwindow* window) { return *static_cast<Frame*>(glfwGetWindowUserPointer(window)); }

} // namespace

void Window::State::listen() {
    glfwSetWindowUserPointer(window, frame.get());
    glfwSetCursorPosCallback(window, [](GLFWwindow* w, double x, double y) {
        int width = 1, height = 1, pixels_x = 1, pixels_y = 1;
        glfwGetWindowSize(w, &width, &height);
        glfwGetFramebufferSize(w, &pixels_x, &pixels_y);
        frame_of(w).pointer_moved(static_cast<float>(x * pixels_x / std::max(1, width)),
                                  static_cast<float>(y * pixels_y / std::max(1, height)));
    });
    glfwSetCursorEnterCallback(window, [](GLFWwindow* w, int entered) {
        if (!entered)
            frame_of(w).pointer_left();
    });
    glfwSetMouseButtonCallback(window, [](GLFWwindow* w, int button, int action, int) {
        if (button != GLFW_MOUSE_BUTTON_LEFT)
            return;
        if (action == GLFW_PRESS) {
            keyboard().before_pointer(frame_of(w), glfwGetTime());
            frame_of(w).pointer_pressed();
        }
        if (action == GLFW_RELEASE)
            frame_of(w).pointer_released();
    });
    glfwSetScrollCallback(window, [](GLFWwindow* w, double left, double up) {
        const auto is_down = [w](int one, int other) { return glfwGetKey(w, one) || glfwGetKey(w, other); };
        const Mods mods = is_down(GLFW_KEY_LEFT_CONTROL, GLFW_KEY_RIGHT_CONTROL) ? Mods::ctrl
                          : is_down(GLFW_KEY_LEFT_SHIFT, GLFW_KEY_RIGHT_SHIFT)   ? Mods::shift
                                                                                 : Mods::none;
        if (up != 0)
            frame_of(w).wheel_turned(static_cast<float>(up), mods);
        if (left != 0)
            frame_of(w).wheel_turned(static_cast<float>(left), Mods::shift);
    });
    glfwSetCharCallback(window, [](GLFWwindow*, unsigned int c) { keyboard().character(c, glfwGetTime()); });
    glfwSetKeyCallback(window, [](GLFWwindow*, int key, int scancode, int action, int mods) {
        keyboard().key(key, scancode, action, mods, glfwGetTime());
    });
    glfwSetDropCallback(window, [](GLFWwindow*, int count, const char** paths) {
        dropped_files().insert(dropped_files().end(), paths, paths + count);
    });
    glfwSetWindowCloseCallback(window, [](GLFWwindow* w) {
        if (closing_asked() && !closing_asked()())
            glfwSetWindowShouldClose(w, GLFW_FALSE);
    });
    frame->set_clipboard(
        [](void* w, const char* text) { glfwSetClipboardString(static_cast<GLFWwindow*>(w), text); },
        [](void* w) -> const char* {
            const char* text = glfwGetClipboardString(static_cast<GLFWwindow*>(w));
            return text ? text : "";
        },
        window);
}

void Window::State::follow_size() {
    int width = 0, height = 0;
    float scale = 1, other = 1;
    glfwGetFramebufferSize(window, &width, &height);
    glfwGetWindowContentScale(window, &scale, &other);
    if (shown == Shown::no)
        scale = 1; // pictures are the same on every machine
    frame->set_content_scale(scale);
    if (width > 0 && height > 0)
        frame->resize(static_cast<float>(width), static_cast<float>(height));
}

void Window::State::draw_settled(const std::function<void()>& draw, int least) {
    for (int drawn = 0; drawn < least || (frame->wants_another() && drawn < 60); ++drawn) {
        const auto now = Clock::now();
        frame->set_elapsed(std::chrono::duration<float>(now - last_frame).count());
        last_frame = now;
        follow_size();
        if (frame->take_font_change()) {
            ImGui_ImplOpenGL3_DestroyFontsTexture();
            ImGui_ImplOpenGL3_CreateFontsTexture();
        }
        frame->begin();
        draw();
        frame->end();
    }
}

void Window::State::paint() {
    glfwSetCursor(window, cursors[static_cast<std::size_t>(frame->cursor())]);
    const Colour ground = colour(frame->palette(), Role::ground);
    glViewport(0, 0, static_cast<int>(frame->width()), static_cast<int>(frame->height()));
    glClearColor(static_cast<float>(ground.r) / 255, static_cast<float>(ground.g) / 255,
                 static_cast<float>(ground.b) / 255, 1);
    glClear(GL_COLOR_BUFFER_BIT);
    ImGui_ImplOpenGL3_RenderDrawData(frame->draw_data());
    if (first_picture == 0)
        first_picture = std::chrono::duration<double>(Clock::now() - made).count();
}

Window::Window(const WindowSetup& setup) : state_(std::make_unique<State>()) {
    State& s = *state_;
    s.shown = setup.shown;
    s.window = open_window(setup);
    glfwMakeContextCurrent(s.window);
    glfwSwapInterval(setup.shown == Shown::yes ? 1 : 0);
    s.frame = std::make_unique<Frame>(FrameSetup{.width = static_cast<float>(setup.width),
                                                 .height = static_cast<float>(setup.height),
                                                 .text_size = setup.text_size,
                                                 .palette = setup.palette,
                                                 .probing = setup.probing});
    s.cursors = {glfwCreateStandardCursor(GLFW_ARROW_CURSOR), glfwCreateStandardCursor(GLFW_IBEAM_CURSOR),
                 glfwCreateStandardCursor(GLFW_HAND_CURSOR), glfwCreateStandardCursor(GLFW_HRESIZE_CURSOR)};
    s.listen();
    s.follow_size();
    if (!ImGui_ImplOpenGL3_Init("#version 130"))
        refuse("OpenGL 3 could not be started");
    ImGui_ImplOpenGL3_NewFrame();
}

Window::~Window() {
    closing_asked() = {};
    ImGui_ImplOpenGL3_Shutdown();
    state_->frame.reset();
    for (GLFWcursor* cursor : state_->cursors)
        if (cursor)
            glfwDestroyCursor(cursor);
    glfwDestroyWindow(state_->window);
    glfwTerminate();
}

Frame& Window::frame() { return *state_->frame; }
std::vector<std::string> Window::take_dropped() { return std::exchange(dropped_files(), {}); }
std::vector<CaughtScan> Window::take_scans() { return keyboard().take_scans(); }
void Window::set_longest_scanner_gap(double seconds) { keyboard().set_longest_gap(seconds); }
void Window::wake() { glfwPostEmptyEvent(); }
void Window::close() { glfwSetWindowShouldClose(state_->window, GLFW_TRUE); }
void Window::ask_before_closing(std::function<bool()> may_close) { closing_asked() = std::move(may_close); }
void Window::look_in_again(double seconds) { state_->longest_wait = std::min(state_->longest_wait, seconds); }
double Window::seconds_to_first_picture() const { return state_->first_picture; }

void Window::set_title(const std::string& title) { glfwSetWindowTitle(state_->window, title.c_str()); }

void Window::State::draw_and_show(const std::function<void()>& draw) {
    draw_settled(draw, 1);
    if (glfwGetWindowAttrib(window, GLFW_ICONIFIED))
        return;
    paint();
    glfwSwapBuffers(window);
    if (!is_seen && shown == Shown::yes)
        glfwShowWindow(window);
    is_seen = true;
}

void Window::picture(const std::function<void()>& draw) {
    glfwPollEvents();
    state_->draw_and_show(draw);
}

void Window::State::wait_for_what_comes(bool is_first) {
    constexpr double at_once = 0.002;
    const double asked = glfwGetTime();
    double wait =
        std::min(frame->patience(), std::exchange(longest_wait, std::numeric_limits<double>::infinity()));
    if (const auto due = keyboard().due())
        wait = std::min(wait, *due - asked);
    if (is_first || wait <= 0)
        glfwPollEvents();
    else
        glfwWaitEventsTimeout(wait);
    // What lay there already came while nobody looked; what was waited for came just now.
    const double now = glfwGetTime();
    keyboard().take_in(*frame, now - asked < at_once ? looked : now, now);
    looked = now;
}

void Window::run(const std::function<void()>& draw, const std::function<void()>& after) {
    State& s = *state_;
    for (bool is_first = true; !glfwWindowShouldClose(s.window); is_first = false) {
        s.wait_for_what_comes(is_first);
        s.draw_and_show(draw);
        if (after)
            after();
    }
}

namespace {

/// Nothing that can be pressed has these words: null.
const Note* to_press(const Probe& probe, std::string_view words) {
    int top = 0;
    for (const auto& note : probe.notes())
        top = std::max(top, note.layer);
    for (const auto& note : probe.notes())
        if (note.id != 0 && note.enabled && note.layer == top && note.label == words)
            return &note;
    return nullptr;
}

} // namespace

void Window::press(std::string_view words, const std::function<void()>& draw) {
    State& s = *state_;
    constexpr int settle = 4;
    s.draw_settled(draw, settle);
    const Note* found = to_press(s.frame->probe(), words);
    if (found && !found->visible) {
        s.frame->scroll_to(found->id);
        s.draw_settled(draw, settle);
        found = to_press(s.frame->probe(), words);
    }
    if (!found)
        throw std::runtime_error("there is nothing to press that says \"" + std::string(words) + "\"");
    const Rect at = found->seen;
    s.frame->pointer_moved((at.left + at.right) / 2, (at.top + at.bottom) / 2);
    s.draw_settled(draw, 2);
    s.frame->pointer_pressed();
    s.frame->pointer_released();
    s.draw_settled(draw, settle);
    s.frame->pointer_left();
}

void Window::shot(const std::filesystem::path& png, const std::function<void()>& draw, int frames) {
    State& s = *state_;
    glfwPollEvents();
    s.draw_settled(draw, std::max(1, frames));
    s.paint();
    const int width = static_cast<int>(s.frame->width()), height = static_cast<int>(s.frame->height());
    std::vector<std::uint8_t> rows(static_cast<std::size_t>(width) * static_cast<std::size_t>(height) * 3);
    glPixelStorei(GL_PACK_ALIGNMENT, 1);
    glFinish();
    glReadPixels(0, 0, width, height, GL_RGB, GL_UNSIGNED_BYTE, rows.data());
    write_png(png, width, height, rows);
    glfwSwapBuffers(s.window);
}

} // namespace mellowbin::ui
