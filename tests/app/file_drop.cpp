#include "app/file_drop.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cctype>
#include <chrono>
#include <string>
#include <thread>

// Behind all others: its macros take common words.
#include <X11/Xlib.h>

namespace couplet {

namespace {

constexpr long kVersion = 5;

// As text/uri-list wants it: what is no plain letter as its bytes.
std::string uri_list(const std::vector<std::filesystem::path>& files) {
    std::string list;
    for (const std::filesystem::path& file : files) {
        list += "file://";
        for (const char letter : file.string()) {
            const auto byte = static_cast<unsigned char>(letter);
            const bool plain =
                std::isalnum(byte) != 0 || std::string_view("/._-").find(letter) != std::string_view::npos;
            list += plain ? std::string(1, letter) : fmt::format("%{:02X}", byte);
        }
        list += "\r\n";
    }
    return list;
}

// The program that the files are dragged out of.
class DragSource {
  public:
    DragSource(Window target, std::string list) : target_(target), list_(std::move(list)) {
        own_ = XCreateSimpleWindow(display_, DefaultRootWindow(display_), 0, 0, 1, 1, 0, 0, 0);
        XSetSelectionOwner(display_, atom("XdndSelection"), own_, CurrentTime);
    }
    ~DragSource() { XCloseDisplay(display_); }
    DragSource(const DragSource&) = delete;
    DragSource& operator=(const DragSource&) = delete;

    void drop() {
        send("XdndEnter", kVersion << 24, static_cast<long>(atom("text/uri-list")), 0);
        const long middle = 300L << 16 | 300L;
        send("XdndPosition", 0, middle, CurrentTime, static_cast<long>(atom("XdndActionCopy")));
        const XClientMessageEvent status = answer("XdndStatus");
        ASSERT_EQ(status.data.l[1] & 1, 1) << "the window takes no files";
        send("XdndDrop", 0, CurrentTime, 0);
        // Its lowest bit should say that they were taken; GLFW says how many bytes it has read.
        const XClientMessageEvent finished = answer("XdndFinished");
        EXPECT_NE(finished.data.l[1], 0) << "the window did not take the files";
    }

  private:
    Atom atom(const char* name) { return XInternAtom(display_, name, False); }

    void send(const char* message, long second, long third, long fourth, long fifth = 0) {
        XEvent event{};
        event.xclient.type = ClientMessage;
        event.xclient.window = target_;
        event.xclient.message_type = atom(message);
        event.xclient.format = 32;
        const long data[] = {static_cast<long>(own_), second, third, fourth, fifth};
        std::copy(std::begin(data), std::end(data), event.xclient.data.l);
        XSendEvent(display_, target_, False, NoEventMask, &event);
        XFlush(display_);
    }

    // Hands the list over meanwhile, when the window asks for it.
    XClientMessageEvent answer(const char* message) {
        for (int tries = 0; tries < 2000; ++tries) {
            while (XPending(display_) > 0) {
                XEvent event;
                XNextEvent(display_, &event);
                if (event.type == SelectionRequest) hand_over(event.xselectionrequest);
                if (event.type == ClientMessage && event.xclient.message_type == atom(message)) return event.xclient;
            }
            std::this_thread::sleep_for(std::chrono::milliseconds(10));
        }
        ADD_FAILURE() << "the window sent no " << message;
        return {};
    }

    void hand_over(const XSelectionRequestEvent& request) {
        XChangeProperty(display_, request.requestor, request.property, request.target, 8, PropModeReplace,
                        reinterpret_cast<const unsigned char*>(list_.data()), static_cast<int>(list_.size()));
        XEvent event{};
        event.xselection.type = SelectionNotify;
        event.xselection.requestor = request.requestor;
        event.xselection.selection = request.selection;
        event.xselection.target = request.target;
        event.xselection.property = request.property;
        event.xselection.time = request.time;
        XSendEvent(display_, request.requestor, False, NoEventMask, &event);
        XFlush(display_);
    }

    Display* display_ = XOpenDisplay(nullptr);
    Window target_;
    Window own_ = 0;
    std::string list_;
};

}  // namespace

void drop_files(unsigned long window, const std::vector<std::filesystem::path>& files) {
    DragSource(window, uri_list(files)).drop();
}

}  // namespace couplet
