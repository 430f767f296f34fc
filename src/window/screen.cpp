#include "window/screen.h"

#include <epoxy/gl.h>
// epoxy must come before any other header of OpenGL.
#include <SFML/System/Err.hpp>
#include <SFML/Window.hpp>
#include <X11/Xlib.h>

#include <array>
#include <chrono>
#include <cmath>
#include <map>
#include <optional>
#include <thread>
#include <utility>

namespace sunfleck::window {
namespace {

tl::unexpected<Problems> no_screen(std::string message) {
    return failure({.kind = ProblemKind::no_answer,
                    .code = "no_screen",
                    .message = std::move(message),
                    .mend = "Start it on a desktop, or use the other commands, which need none."});
}

struct DisplayCloser {
    void operator()(Display* display) const { XCloseDisplay(display); }
};
using DisplayPointer = std::unique_ptr<Display, DisplayCloser>;

std::optional<Key> key_of(const sf::Event::KeyEvent& event) {
    static const std::map<sf::Keyboard::Key, Key> keys{
        {sf::Keyboard::Left, Key::left},   {sf::Keyboard::Right, Key::right},
        {sf::Keyboard::Up, Key::up},       {sf::Keyboard::Down, Key::down},
        {sf::Keyboard::Enter, Key::enter}, {sf::Keyboard::Escape, Key::escape},
        {sf::Keyboard::Tab, Key::tab},     {sf::Keyboard::F2, Key::f2},
        {sf::Keyboard::F3, Key::f3},       {sf::Keyboard::F4, Key::f4},
        {sf::Keyboard::F5, Key::f5}};
    if (const auto found = keys.find(event.code); found != keys.end()) return found->second;
    if (!event.control) return std::nullopt;
    if (event.code == sf::Keyboard::Z) return event.shift ? Key::redo : Key::undo;
    if (event.code == sf::Keyboard::S) return Key::keep;
    if (event.code == sf::Keyboard::Num0 || event.code == sf::Keyboard::Numpad0) return Key::whole;
    return std::nullopt;
}

constexpr const char* vertex_source = R"(#version 330 core
uniform vec4 box;  // left, top, right, bottom in device coordinates
out vec2 place;
void main() {
    place = vec2(gl_VertexID & 1, gl_VertexID >> 1);
    gl_Position = vec4(mix(box.x, box.z, place.x), mix(box.y, box.w, place.y), 0.0, 1.0);
}
)";
constexpr const char* fragment_source = R"(#version 330 core
uniform sampler2D picture;
in vec2 place;
out vec4 colour;
void main() { colour = vec4(texture(picture, place).rgb, 1.0); }
)";

GLuint shader_of(GLenum kind, const char* source) {
    const GLuint shader = glCreateShader(kind);
    glShaderSource(shader, 1, &source, nullptr);
    glCompileShader(shader);
    return shader;
}

class SfmlScreen final : public Screen {
  public:
    SfmlScreen(const std::string& title, double width, double height, double scale)
        : scale_(scale),
          window_(sf::VideoMode(static_cast<unsigned>(std::lround(width * scale)),
                                static_cast<unsigned>(std::lround(height * scale))),
                  sf::String::fromUtf8(title.begin(), title.end()), sf::Style::Default,
                  sf::ContextSettings(0, 0, 0, 3, 3, sf::ContextSettings::Core)) {
        window_.setKeyRepeatEnabled(true);
        const GLuint vertex = shader_of(GL_VERTEX_SHADER, vertex_source);
        const GLuint fragment = shader_of(GL_FRAGMENT_SHADER, fragment_source);
        program_ = glCreateProgram();
        glAttachShader(program_, vertex);
        glAttachShader(program_, fragment);
        glLinkProgram(program_);
        glDeleteShader(vertex);
        glDeleteShader(fragment);
        glGenVertexArrays(1, &corners_);
        glGenTextures(static_cast<GLsizei>(textures_.size()), textures_.data());
    }
    ~SfmlScreen() override {
        glDeleteTextures(static_cast<GLsizei>(textures_.size()), textures_.data());
        glDeleteVertexArrays(1, &corners_);
        glDeleteProgram(program_);
    }
    SfmlScreen(const SfmlScreen&) = delete;
    SfmlScreen& operator=(const SfmlScreen&) = delete;

    /// Empty: all is well.
    [[nodiscard]] std::string trouble() const {
        GLint is_linked = GL_FALSE;
        glGetProgramiv(program_, GL_LINK_STATUS, &is_linked);
        if (is_linked != GL_TRUE) return "The graphics driver has no OpenGL 3.3.";
        return {};
    }

    [[nodiscard]] Input first_size() const { return size_of(window_.getSize()); }

    [[nodiscard]] std::vector<Input> inputs(double patience_s) override {
        std::vector<Input> inputs;
        sf::Event event{};
        const sf::Clock waited;
        while (inputs.empty() && window_.isOpen()) {
            while (window_.pollEvent(event)) note(event, inputs);
            if (!inputs.empty() ||
                static_cast<double>(waited.getElapsedTime().asSeconds()) >= patience_s)
                break;
            std::this_thread::sleep_for(std::chrono::milliseconds(8));
        }
        return inputs;
    }

    [[nodiscard]] bool is_closed() const override { return !window_.isOpen(); }

    void show(Pictures& pictures) override {
        if (!window_.isOpen()) return;
        const sf::Vector2u size = window_.getSize();
        glViewport(0, 0, static_cast<GLsizei>(size.x), static_cast<GLsizei>(size.y));
        glClearColor(0.98F, 0.99F, 0.97F, 1.0F);
        glClear(GL_COLOR_BUFFER_BIT);
        glUseProgram(program_);
        glBindVertexArray(corners_);
        for (std::size_t i = 0; i < textures_.size(); ++i) {
            PartPicture& part = pictures.parts()[i];
            if (part.canvas == nullptr) continue;
            glBindTexture(GL_TEXTURE_2D, textures_[i]);
            if (std::exchange(part.is_new, false)) upload(*part.canvas);
            lay(part.box, size);
        }
        window_.display();
    }

  private:
    [[nodiscard]] SheetPoint logical(int x, int y) const { return {x / scale_, y / scale_}; }
    [[nodiscard]] Input size_of(sf::Vector2u size) const {
        return Resized{size.x / scale_, size.y / scale_};
    }

    void note(const sf::Event& event, std::vector<Input>& inputs) {
        if (event.type == sf::Event::Closed) {
            window_.close();
        } else if (event.type == sf::Event::Resized) {
            inputs.push_back(size_of({event.size.width, event.size.height}));
        } else if (event.type == sf::Event::MouseMoved) {
            inputs.push_back(PointerMoved{logical(event.mouseMove.x, event.mouseMove.y)});
        } else if (event.type == sf::Event::MouseButtonPressed) {
            if (event.mouseButton.button != sf::Mouse::Left) return;
            inputs.push_back(PointerPressed{logical(event.mouseButton.x, event.mouseButton.y)});
        } else if (event.type == sf::Event::MouseButtonReleased) {
            if (event.mouseButton.button != sf::Mouse::Left) return;
            inputs.push_back(PointerReleased{logical(event.mouseButton.x, event.mouseButton.y)});
        } else if (event.type == sf::Event::MouseWheelScrolled) {
            inputs.push_back(
                WheelTurned{logical(event.mouseWheelScroll.x, event.mouseWheelScroll.y),
                            static_cast<double>(event.mouseWheelScroll.delta)});
        } else if (event.type == sf::Event::TextEntered) {
            const auto text = sf::String(event.text.unicode).toUtf8();
            if (event.text.unicode >= 32) {
                inputs.push_back(TextTyped{std::string(text.begin(), text.end())});
            }
        } else if (event.type == sf::Event::KeyPressed) {
            const auto key = key_of(event.key);
            if (!key) return;
            inputs.push_back(KeyPressed{*key, {event.key.shift, event.key.control, event.key.alt}});
        }
    }

    static void upload(output::PixelCanvas& canvas) {
        const auto pixels = canvas.pixels();
        if (pixels.empty()) return;
        glPixelStorei(GL_UNPACK_ROW_LENGTH, canvas.row_bytes() / 4);
        glTexImage2D(GL_TEXTURE_2D, 0, GL_RGB8, canvas.width_px(), canvas.height_px(), 0, GL_BGRA,
                     GL_UNSIGNED_BYTE, pixels.data());
        glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_NEAREST);
        glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, GL_NEAREST);
        glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_S, GL_CLAMP_TO_EDGE);
        glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_T, GL_CLAMP_TO_EDGE);
    }

    void lay(const SheetBox& box, sf::Vector2u size) const {
        const auto x = [&](double logical) {
            return static_cast<float>(2.0 * logical * scale_ / size.x - 1.0);
        };
        const auto y = [&](double logical) {
            return static_cast<float>(1.0 - 2.0 * logical * scale_ / size.y);
        };
        glUniform4f(glGetUniformLocation(program_, "box"), x(box.low.x), y(box.low.y),
                    x(box.high.x), y(box.high.y));
        glDrawArrays(GL_TRIANGLE_STRIP, 0, 4);
    }

    double scale_;
    sf::Window window_;
    GLuint program_ = 0;
    GLuint corners_ = 0;
    std::array<GLuint, 4> textures_{};
};

}  // namespace

Result<std::unique_ptr<Screen>> Screen::open(const std::string& title, double width, double height,
                                             double scale) {
    // SFML ends the program when there is no X server, so it is asked for before; and kept, since
    // a server may begin anew when its last client leaves.
    const DisplayPointer display(XOpenDisplay(nullptr));
    if (display == nullptr) return no_screen("There is no screen to open a window on.");
    sf::err().rdbuf(nullptr);  // it remarks on drivers; what matters is told by trouble()
    auto screen = std::make_unique<SfmlScreen>(title, width, height, scale);
    if (const std::string trouble = screen->trouble(); !trouble.empty()) {
        return no_screen(trouble);
    }
    return std::unique_ptr<Screen>(std::move(screen));
}

}  // namespace sunfleck::window
