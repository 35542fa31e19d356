#include "typing_person.h"

#include <X11/XKBlib.h>
#include <X11/Xlib.h>
#include <X11/extensions/XTest.h>
#include <X11/keysym.h>
#include <cctype>
#include <csignal>
#include <cstdlib>
#include <fcntl.h>
#include <poll.h>
#include <spawn.h>
#include <stdexcept>
#include <sys/wait.h>
#include <thread>
#include <unistd.h>
#include <vector>

extern char** environ;

namespace mellowbin::tests {

using namespace std::chrono_literals;
using Clock = std::chrono::steady_clock;

namespace {

std::vector<char*> pointers_to(std::vector<std::string>& words) {
    std::vector<char*> pointers;
    for (auto& word : words)
        pointers.push_back(word.data());
    pointers.push_back(nullptr);
    return pointers;
}

/// "7\n" as the server writes it when it is ready; empty: it wrote none in time.
std::string line_from(int file, std::chrono::seconds wait) {
    std::string line;
    for (const auto until = Clock::now() + wait;
         Clock::now() < until && line.find('\n') == std::string::npos;) {
        pollfd ready{file, POLLIN, 0};
        if (::poll(&ready, 1, 100) <= 0)
            continue;
        char bytes[16];
        const auto count = ::read(file, bytes, sizeof bytes);
        if (count <= 0)
            return {};
        line.append(bytes, static_cast<std::size_t>(count));
    }
    return line.substr(0, line.find('\n'));
}

} // namespace

struct Display::Opened {
    std::unique_ptr<StartedProgram> server;
    std::string name;
    ::Display* display = nullptr;

    void press(KeyCode key, bool with_shift) const {
        const KeyCode shift = XKeysymToKeycode(display, XK_Shift_L);
        if (with_shift)
            XTestFakeKeyEvent(display, shift, True, CurrentTime);
        XTestFakeKeyEvent(display, key, True, CurrentTime);
        XTestFakeKeyEvent(display, key, False, CurrentTime);
        if (with_shift)
            XTestFakeKeyEvent(display, shift, False, CurrentTime);
        XSync(display, False);
    }
    void press_with_ctrl(KeyCode key) const {
        const KeyCode ctrl = XKeysymToKeycode(display, XK_Control_L);
        XTestFakeKeyEvent(display, ctrl, True, CurrentTime);
        XTestFakeKeyEvent(display, key, True, CurrentTime);
        XTestFakeKeyEvent(display, key, False, CurrentTime);
        XTestFakeKeyEvent(display, ctrl, False, CurrentTime);
        XSync(display, False);
    }
    /// The first window below the root that is shown; 0: none.
    [[nodiscard]] ::Window shown() const {
        ::Window root = 0, parent = 0, *all = nullptr, found = 0;
        unsigned count = 0;
        if (!XQueryTree(display, DefaultRootWindow(display), &root, &parent, &all, &count))
            return 0;
        for (unsigned i = 0; i < count && !found; ++i) {
            XWindowAttributes is{};
            if (XGetWindowAttributes(display, all[i], &is) && is.map_state == IsViewable && is.width > 100)
                found = all[i];
        }
        if (all)
            XFree(all);
        return found;
    }
};

std::unique_ptr<Display> Display::open() {
    const std::string server = "/usr/bin/Xvfb";
    if (::access(server.c_str(), X_OK) != 0)
        return nullptr;
    int ends[2];
    if (::pipe(ends) != 0)
        throw std::runtime_error("no pipe");
    ::fcntl(ends[0], F_SETFD, FD_CLOEXEC);
    auto opened = std::make_unique<Opened>();
    opened->server = std::make_unique<StartedProgram>(
        std::vector<std::string>{server, "-displayfd", std::to_string(ends[1]), "-screen", "0", "1280x800x24",
                                 "-nolisten", "tcp"},
        std::vector<std::string>{});
    ::close(ends[1]);
    const auto number = line_from(ends[0], 20s);
    ::close(ends[0]);
    if (number.empty())
        return nullptr;
    opened->name = ":" + number;
    opened->display = XOpenDisplay(opened->name.c_str());
    if (!opened->display)
        return nullptr;
    // A window that is killed between two questions is no reason to end the test.
    XSetErrorHandler([](::Display*, XErrorEvent*) { return 0; });
    return std::unique_ptr<Display>(new Display(std::move(opened)));
}

Display::Display(std::unique_ptr<Opened> opened) : opened_(std::move(opened)) {}

Display::~Display() {
    XCloseDisplay(opened_->display);
    opened_->server->tell(SIGTERM); // it takes its lock away
    opened_->server->ended(5s);
}

const std::string& Display::name() const { return opened_->name; }

bool Display::has_window(std::chrono::seconds wait) {
    for (const auto until = Clock::now() + wait; Clock::now() < until; std::this_thread::sleep_for(50ms)) {
        const auto window = opened_->shown();
        if (!window)
            continue;
        std::this_thread::sleep_for(300ms); // its first pictures
        XSetInputFocus(opened_->display, window, RevertToPointerRoot, CurrentTime);
        XSync(opened_->display, False);
        ::Window focused = 0;
        int reverts_to = 0;
        XGetInputFocus(opened_->display, &focused, &reverts_to);
        if (focused == window)
            return true;
    }
    return false;
}

void Display::type(char letter) {
    const bool is_capital = std::isupper(static_cast<unsigned char>(letter)) != 0;
    const char name[2]{static_cast<char>(std::tolower(static_cast<unsigned char>(letter))), '\0'};
    const auto symbol = letter == '-' ? XK_minus : XStringToKeysym(name);
    opened_->press(XKeysymToKeycode(opened_->display, symbol), is_capital);
}

void Display::press(const char* key) {
    opened_->press(XKeysymToKeycode(opened_->display, XStringToKeysym(key)), false);
}

void Display::scan(std::string_view bytes, std::chrono::milliseconds gap) {
    for (const char c : bytes) {
        const bool is_separator = c == '\x1d';
        // The names of X11 for signs of ASCII are their codes.
        const KeySym symbol = is_separator ? XK_bracketright : static_cast<unsigned char>(c);
        const KeyCode key = XKeysymToKeycode(opened_->display, symbol);
        if (is_separator)
            opened_->press_with_ctrl(key);
        else
            opened_->press(key, XkbKeycodeToKeysym(opened_->display, key, 0, 0) != symbol);
        std::this_thread::sleep_for(gap);
    }
}

StartedProgram::StartedProgram(const std::vector<std::string>& words,
                               const std::vector<std::string>& environment) {
    auto arguments = words;
    auto around = environment; // the first of a name counts
    for (char** one = environ; *one; ++one)
        around.emplace_back(*one);
    auto argument_pointers = pointers_to(arguments), environment_pointers = pointers_to(around);
    pid_t child = 0;
    if (::posix_spawn(&child, arguments.front().c_str(), nullptr, nullptr, argument_pointers.data(),
                      environment_pointers.data()) != 0)
        throw std::runtime_error(arguments.front() + " cannot be started");
    process_ = child;
}

StartedProgram::~StartedProgram() { kill(); }

void StartedProgram::kill() {
    if (!is_running())
        return;
    ::kill(process_, SIGKILL);
    int status = 0;
    ::waitpid(process_, &status, 0);
    code_ = -1;
}

bool StartedProgram::is_running() {
    int status = 0;
    if (!code_ && ::waitpid(process_, &status, WNOHANG) == process_)
        code_ = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    return !code_;
}

void StartedProgram::tell(int signal) {
    if (is_running())
        ::kill(process_, signal);
}

std::optional<int> StartedProgram::ended(std::chrono::seconds wait) {
    for (const auto until = Clock::now() + wait; is_running() && Clock::now() < until;)
        std::this_thread::sleep_for(20ms);
    return code_;
}

} // namespace mellowbin::tests
