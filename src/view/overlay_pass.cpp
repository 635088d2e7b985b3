#include "view/overlay_pass.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <glm/common.hpp>
#include <glm/geometric.hpp>
#include <optional>
#include <vector>

#include "view/program.hpp"
#include "view/shaders.hpp"

namespace couplet {

namespace {

const void* offset(std::size_t bytes) {
    return reinterpret_cast<const void*>(bytes);  // NOLINT(performance-no-int-to-ptr): OpenGL's way to give an offset
}

struct StrokeRecord {
    glm::vec4 from;
    glm::vec3 to;
    glm::vec4 ink;
    glm::vec3 pen;
};

struct LetterVertex {
    glm::vec2 corner_px;
    glm::vec2 sheet_at;
    glm::vec4 ink;
};

std::optional<glm::vec2> pixel_of(const glm::vec3& position, const glm::mat4& clip_from_observer, glm::ivec2 size_px) {
    const glm::vec4 clip = clip_from_observer * glm::vec4(position, 1.0F);
    if (clip.w <= 0.0F) return std::nullopt;
    return glm::vec2((clip.x / clip.w * 0.5F + 0.5F) * static_cast<float>(size_px.x),
                     (0.5F - clip.y / clip.w * 0.5F) * static_cast<float>(size_px.y));
}

std::vector<StrokeRecord> records_of(const std::vector<Stroke>& strokes, const glm::mat4& clip_from_observer,
                                     glm::ivec2 size_px) {
    std::vector<StrokeRecord> records;
    for (const Stroke& stroke : strokes) {
        float run_px = 0.0F;
        for (std::size_t i = 1; i < stroke.points_mm.size(); ++i) {
            const glm::vec3& from = stroke.points_mm[i - 1];
            const glm::vec3& to = stroke.points_mm[i];
            records.push_back({glm::vec4(from, run_px),
                               to,
                               stroke.colour,
                               {stroke.width_px, stroke.dash_px, stroke.on_top ? 1.0F : 0.0F}});
            if (stroke.dash_px <= 0.0F) continue;
            const auto a = pixel_of(from, clip_from_observer, size_px);
            const auto b = pixel_of(to, clip_from_observer, size_px);
            if (a && b) run_px += glm::length(*b - *a);
        }
    }
    return records;
}

// Binds attribute `index` to one record each.
void per_record(GLuint index, GLint size, std::size_t stride, std::size_t bytes) {
    glEnableVertexAttribArray(index);
    glVertexAttribPointer(index, size, GL_FLOAT, GL_FALSE, static_cast<GLsizei>(stride), offset(bytes));
    glVertexAttribDivisor(index, 1);
}

void bind_corners(const Buffer& corners) {
    glBindBuffer(GL_ARRAY_BUFFER, corners.name());
    glEnableVertexAttribArray(0);
    glVertexAttribPointer(0, 2, GL_FLOAT, GL_FALSE, 0, nullptr);
}

template <class Record>
void stream(const Buffer& buffer, const std::vector<Record>& records) {
    glBindBuffer(GL_ARRAY_BUFFER, buffer.name());
    glBufferData(GL_ARRAY_BUFFER, static_cast<GLsizeiptr>(records.size() * sizeof(Record)), records.data(),
                 GL_STREAM_DRAW);
}

}  // namespace

struct OverlayPass::Quads {
    std::vector<LetterVertex> vertices;

    void add(glm::vec2 from, glm::vec2 to, glm::vec2 sheet_from, glm::vec2 sheet_to, const glm::vec4& ink) {
        const std::array<LetterVertex, 4> corners = {LetterVertex{from, sheet_from, ink},
                                                     {{to.x, from.y}, {sheet_to.x, sheet_from.y}, ink},
                                                     {to, sheet_to, ink},
                                                     {{from.x, to.y}, {sheet_from.x, sheet_to.y}, ink}};
        for (const std::size_t i : {0U, 1U, 2U, 0U, 2U, 3U}) vertices.push_back(corners[i]);
    }
    void add_box(glm::vec2 from, glm::vec2 to, const glm::vec4& ink) {
        add(from, to, glm::vec2(-1), glm::vec2(-1), ink);
    }
    // A thin line as a turned box.
    void add_line(glm::vec2 from, glm::vec2 to, float width, const glm::vec4& ink) {
        const glm::vec2 run = to - from;
        if (glm::length(run) < 1e-3F) return;
        const glm::vec2 off = glm::normalize(glm::vec2(-run.y, run.x)) * width * 0.5F;
        const std::array<glm::vec2, 4> corners = {from - off, from + off, to + off, to - off};
        for (const std::size_t i : {0U, 1U, 2U, 0U, 2U, 3U}) vertices.push_back({corners[i], glm::vec2(-1), ink});
    }
    void add_text(const LetterSheet& sheet, const std::string& text, glm::vec2 top_left, const glm::vec4& ink) {
        const glm::vec2 scale = 1.0F / glm::vec2(sheet.size_px);
        const glm::vec2 whole = glm::round(top_left);  // letters are sharp on whole pixels only
        for (const LetterBox& box : letter_boxes(sheet, text))
            add(whole + box.from_px, whole + box.to_px, box.sheet_from_px * scale, box.sheet_to_px * scale, ink);
    }
};

OverlayPass::OverlayPass(const Buffer& corners)
    : stroke_program_(linked({shader_frame(), shader_stroke_vert()}, {shader_stroke_frag()})),
      glow_program_(linked({shader_frame(), shader_glow_vert()}, {shader_glow_frag()})),
      letter_program_(linked({shader_frame(), shader_letter_vert()}, {shader_letter_frag()})),
      stroke_array_(new_vertex_array()),
      glow_array_(new_vertex_array()),
      letter_array_(new_vertex_array()),
      records_(new_buffer()) {
    set_sampler(letter_program_, "letters", 4);
    glBindVertexArray(stroke_array_.name());
    bind_corners(corners);
    glBindVertexArray(glow_array_.name());
    bind_corners(corners);
}

void OverlayPass::draw_in_space(const Picture& picture, glm::mat4 clip_from_observer, glm::ivec2 size_px) {
    glEnable(GL_BLEND);
    glBlendFunc(GL_ONE, GL_ONE_MINUS_SRC_ALPHA);
    glDepthMask(GL_FALSE);
    if (!picture.strokes.empty()) {
        const std::vector<StrokeRecord> records = records_of(picture.strokes, clip_from_observer, size_px);
        glBindVertexArray(stroke_array_.name());
        stream(records_, records);
        per_record(1, 4, sizeof(StrokeRecord), offsetof(StrokeRecord, from));
        per_record(2, 3, sizeof(StrokeRecord), offsetof(StrokeRecord, to));
        per_record(3, 4, sizeof(StrokeRecord), offsetof(StrokeRecord, ink));
        per_record(4, 3, sizeof(StrokeRecord), offsetof(StrokeRecord, pen));
        glUseProgram(stroke_program_.name());
        glDrawArraysInstanced(GL_TRIANGLE_STRIP, 0, 4, static_cast<GLsizei>(records.size()));
    }
    if (!picture.glows.empty()) {
        struct GlowRecord {
            glm::vec4 centre;
            glm::vec3 tint;
        };
        std::vector<GlowRecord> records;
        for (const Glow& glow : picture.glows)
            records.push_back({glm::vec4(glow.position_mm, glow.radius_mm), glow.colour});
        glBindVertexArray(glow_array_.name());
        stream(records_, records);
        per_record(1, 4, sizeof(GlowRecord), offsetof(GlowRecord, centre));
        per_record(2, 3, sizeof(GlowRecord), offsetof(GlowRecord, tint));
        glUseProgram(glow_program_.name());
        glDrawArraysInstanced(GL_TRIANGLE_STRIP, 0, 4, static_cast<GLsizei>(records.size()));
    }
    glDepthMask(GL_TRUE);
    glDisable(GL_BLEND);
}

const OverlayPass::Letters& OverlayPass::letters(int height_px) {
    const auto found = sheets_.find(height_px);
    if (found != sheets_.end()) return found->second;
    Letters made{letter_sheet(height_px), new_texture()};
    glActiveTexture(GL_TEXTURE4);
    glBindTexture(GL_TEXTURE_2D, made.image.name());
    glPixelStorei(GL_UNPACK_ALIGNMENT, 1);
    glTexImage2D(GL_TEXTURE_2D, 0, GL_R8, made.sheet.size_px.x, made.sheet.size_px.y, 0, GL_RED, GL_UNSIGNED_BYTE,
                 made.sheet.alpha.data());
    glPixelStorei(GL_UNPACK_ALIGNMENT, 4);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_LINEAR);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, GL_LINEAR);
    return sheets_.emplace(height_px, std::move(made)).first->second;
}

void OverlayPass::add_labels(const Picture& picture, const glm::mat4& clip_from_observer, glm::ivec2 size_px,
                             std::map<int, Quads>& quads) {
    const int height_px = std::max(12, size_px.y / 42);
    const LetterSheet& sheet = letters(height_px).sheet;
    const glm::vec2 padding(static_cast<float>(height_px) * 0.35F, static_cast<float>(height_px) * 0.12F);
    std::vector<LabelWish> wishes;
    std::vector<const Label*> wished;
    for (const Label& label : picture.labels) {
        const auto at = pixel_of(label.anchor_mm, clip_from_observer, size_px);
        if (!at) continue;
        const auto earlier = sides_of_labels_.find(label.text);
        const glm::vec2 size(width_px(sheet, label.text), static_cast<float>(sheet.height_px));
        wishes.push_back({*at, size + 2.0F * padding, label.importance,
                          earlier == sides_of_labels_.end() ? std::nullopt : std::optional(earlier->second)});
        wished.push_back(&label);
    }
    sides_of_labels_.clear();
    Quads& out = quads[height_px];
    const float thin = std::max(1.0F, static_cast<float>(height_px) / 14.0F);
    for (const PlacedLabel& placed : place_labels(wishes, glm::vec2(size_px))) {
        const LabelWish& wish = wishes[placed.wish];
        const glm::vec2 to = placed.top_left_px + wish.size_px;
        const glm::vec2 nearest = glm::clamp(wish.anchor_px, placed.top_left_px, to);
        out.add_line(wish.anchor_px, nearest, thin, {0.09F, 0.10F, 0.12F, 0.85F});
        out.add_box(wish.anchor_px - 1.5F * thin, wish.anchor_px + 1.5F * thin, {0.09F, 0.10F, 0.12F, 0.95F});
        out.add_box(placed.top_left_px, to, {0.09F, 0.10F, 0.12F, 0.82F});
        out.add_text(sheet, wished[placed.wish]->text, placed.top_left_px + padding, {0.97F, 0.96F, 0.93F, 1.0F});
        sides_of_labels_[wished[placed.wish]->text] = placed.side;
    }
}

constexpr std::array<glm::vec2, 8> kAllRound = {{{1, 0}, {-1, 0}, {0, 1}, {0, -1}, {1, 1}, {1, -1}, {-1, 1}, {-1, -1}}};

void OverlayPass::add_captions(const Picture& picture, glm::ivec2 size_px, std::map<int, Quads>& quads) {
    for (const Caption& caption : picture.captions) {
        const int height_px =
            std::max(8, static_cast<int>(std::lround(caption.height * static_cast<float>(size_px.y))));
        const LetterSheet& sheet = letters(height_px).sheet;
        const float width = width_px(sheet, caption.text);
        const float before = caption.anchor == Caption::Anchor::left     ? 0.0F
                             : caption.anchor == Caption::Anchor::middle ? 0.5F * width
                                                                         : width;
        const glm::vec2 at = caption.at * glm::vec2(size_px) - glm::vec2(before, 0.0F);
        const float rim = std::max(1.0F, std::round(static_cast<float>(height_px) / 16.0F));
        if (caption.halo.a > 0.0F)
            for (const glm::vec2 way : kAllRound)
                quads[height_px].add_text(sheet, caption.text, at + rim * way, caption.halo);
        quads[height_px].add_text(sheet, caption.text, at, caption.colour);
    }
}

void OverlayPass::draw_texts(const Picture& picture, glm::mat4 clip_from_observer, glm::ivec2 size_px) {
    if (picture.labels.empty() && picture.captions.empty()) return;
    std::map<int, Quads> quads;
    add_labels(picture, clip_from_observer, size_px, quads);
    add_captions(picture, size_px, quads);
    glDisable(GL_DEPTH_TEST);
    glEnable(GL_BLEND);
    glBlendFunc(GL_ONE, GL_ONE_MINUS_SRC_ALPHA);
    glUseProgram(letter_program_.name());
    glBindVertexArray(letter_array_.name());
    for (const auto& [height_px, made] : quads) {
        if (made.vertices.empty()) continue;
        stream(records_, made.vertices);
        const std::array<std::pair<GLint, std::size_t>, 3> parts = {std::pair{2, offsetof(LetterVertex, corner_px)},
                                                                    {2, offsetof(LetterVertex, sheet_at)},
                                                                    {4, offsetof(LetterVertex, ink)}};
        for (GLuint i = 0; i < 3; ++i) {
            glEnableVertexAttribArray(i);
            glVertexAttribPointer(i, parts[i].first, GL_FLOAT, GL_FALSE, sizeof(LetterVertex), offset(parts[i].second));
        }
        glActiveTexture(GL_TEXTURE4);
        glBindTexture(GL_TEXTURE_2D, letters(height_px).image.name());
        glDrawArrays(GL_TRIANGLES, 0, static_cast<GLsizei>(made.vertices.size()));
    }
    glDisable(GL_BLEND);
    glEnable(GL_DEPTH_TEST);
}

}  // namespace couplet
