#include "view/renderer.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <functional>
#include <glm/geometric.hpp>
#include <glm/gtc/type_ptr.hpp>
#include <limits>
#include <vector>

#include "view/environment.hpp"
#include "view/frame_block.hpp"
#include "view/gl.hpp"
#include "view/mesh_store.hpp"
#include "view/overlay_pass.hpp"
#include "view/pixel_ring.hpp"
#include "view/program.hpp"
#include "view/shaders.hpp"
#include "view/targets.hpp"

namespace couplet {

namespace {

// Texture units; the samplers of all programs are set to them once.
constexpr int kShadowMapUnit = 0;
constexpr int kShadowDepthsUnit = 1;
constexpr int kRoomUnit = 2;
constexpr int kShadeUnit = 3;
constexpr int kInputUnit = 4;

constexpr int kRoomSize = 128;
constexpr int kRoomLevels = 6;

// Passes that are not looked at closely make do with chords four times as long.
constexpr int kCoarser = 2;

// What a vertex shader needs of one item; attributes 2 to 6.
struct ItemRecord {
    std::array<glm::vec4, 3> rows;
    glm::vec4 paint;
    glm::vec2 state;
};

// Items of one shape at one level, side by side in the record buffer.
struct Batch {
    std::size_t shape;
    int level;
    bool opened;
    std::size_t first;
    std::size_t count;
    float nearness;  // the larger, the sooner it is drawn
};

const void* offset(std::size_t bytes) {
    return reinterpret_cast<const void*>(bytes);  // NOLINT(performance-no-int-to-ptr): OpenGL's way to give an offset
}

ItemRecord record_of(const PictureItem& item) {
    const glm::mat4 t = glm::transpose(item.observer_from_part);
    return {{t[0], t[1], t[2]},
            glm::vec4(item.material.colour, static_cast<float>(item.material.finish)),
            {item.lit_up, item.opened ? 1.0F : 0.0F}};
}

void bind_records(const Buffer& records, std::size_t first) {
    glBindBuffer(GL_ARRAY_BUFFER, records.name());
    const std::size_t start = first * sizeof(ItemRecord);
    for (GLuint i = 0; i < 5; ++i) {
        const bool is_state = i == 4;
        glEnableVertexAttribArray(i + 2);
        glVertexAttribPointer(i + 2, is_state ? 2 : 4, GL_FLOAT, GL_FALSE, sizeof(ItemRecord),
                              offset(start + i * sizeof(glm::vec4)));
        glVertexAttribDivisor(i + 2, 1);
    }
}

Texture room_texture() {
    Texture room = new_texture();
    glBindTexture(GL_TEXTURE_CUBE_MAP, room.name());
    const std::vector<CubeLevel> levels = room_levels(kRoomSize, kRoomLevels);
    for (std::size_t level = 0; level < levels.size(); ++level)
        for (std::size_t face = 0; face < 6; ++face)
            glTexImage2D(GL_TEXTURE_CUBE_MAP_POSITIVE_X + static_cast<GLenum>(face), static_cast<GLint>(level),
                         GL_RGB16F, levels[level].size, levels[level].size, 0, GL_RGB, GL_FLOAT,
                         levels[level].faces[face].data());
    glTexParameteri(GL_TEXTURE_CUBE_MAP, GL_TEXTURE_MAX_LEVEL, kRoomLevels - 1);
    glTexParameteri(GL_TEXTURE_CUBE_MAP, GL_TEXTURE_MIN_FILTER, GL_LINEAR_MIPMAP_LINEAR);
    glTexParameteri(GL_TEXTURE_CUBE_MAP, GL_TEXTURE_MAG_FILTER, GL_LINEAR);
    return room;
}

Program metal_program(std::string_view cutting) {
    return linked({shader_frame(), shader_solid_vert()},
                  {shader_frame(), cutting, shader_light(), shader_metal_frag()});
}

Program depth_program(std::string_view cutting) {
    return linked({shader_frame(), shader_depth_vert()}, {shader_frame(), cutting, shader_depth_frag()});
}

Program line_program(std::string_view cutting) {
    return linked({shader_frame(), shader_solid_vert()}, {shader_frame(), cutting, shader_line_fill_frag()});
}

Buffer quad_corners() {
    // Corners as shaders/edge.vert and stroke.vert count them.
    constexpr std::array<float, 8> kCorners = {0, -1, 1, -1, 0, 1, 1, 1};
    Buffer buffer = new_buffer();
    glBindBuffer(GL_ARRAY_BUFFER, buffer.name());
    glBufferData(GL_ARRAY_BUFFER, sizeof(kCorners), kCorners.data(), GL_STATIC_DRAW);
    return buffer;
}

VertexArray array_of(const Buffer& corners) {
    VertexArray array = new_vertex_array();
    glBindVertexArray(array.name());
    glBindBuffer(GL_ARRAY_BUFFER, corners.name());
    glEnableVertexAttribArray(0);
    glVertexAttribPointer(0, 2, GL_FLOAT, GL_FALSE, 0, nullptr);
    return array;
}

Buffer square_corners() {
    constexpr std::array<float, 8> kCorners = {-1, -1, 1, -1, -1, 1, 1, 1};
    Buffer buffer = new_buffer();
    glBindBuffer(GL_ARRAY_BUFFER, buffer.name());
    glBufferData(GL_ARRAY_BUFFER, sizeof(kCorners), kCorners.data(), GL_STATIC_DRAW);
    return buffer;
}

// Whole images of one size; several samples become one.
void copy(unsigned from, unsigned to, glm::ivec2 size_px) {
    glBindFramebuffer(GL_READ_FRAMEBUFFER, from);
    glBindFramebuffer(GL_DRAW_FRAMEBUFFER, to);
    glBlitFramebuffer(0, 0, size_px.x, size_px.y, 0, 0, size_px.x, size_px.y, GL_COLOR_BUFFER_BIT, GL_NEAREST);
}

void bind_texture(int unit, GLenum kind, const Texture& texture) {
    glActiveTexture(GL_TEXTURE0 + static_cast<GLenum>(unit));
    glBindTexture(kind, texture.name());
}

}  // namespace

struct Renderer::State {
    Buffer edge_corners = quad_corners();
    Buffer corners = square_corners();
    VertexArray square = array_of(corners);
    MeshStore store{edge_corners};
    Buffer block = new_buffer();
    Buffer records = new_buffer();
    Texture room = room_texture();
    std::array<glm::vec3, 4> irradiance = room_irradiance();

    // Two of each: for whole items, and for those that the cutaway opens.
    std::array<Program, 2> metal = {metal_program(shader_whole()), metal_program(shader_cut())};
    std::array<Program, 2> line_fill = {line_program(shader_whole()), line_program(shader_cut())};
    Program surroundings =
        linked({shader_whole_picture_vert()}, {shader_frame(), shader_light(), shader_surroundings_frag()});
    std::array<Program, 2> depth = {depth_program(shader_whole()), depth_program(shader_cut())};
    Program bench_depth =
        linked({shader_frame(), shader_bench_vert()}, {shader_frame(), shader_whole(), shader_depth_frag()});
    Program shade = linked({shader_whole_picture_vert()}, {shader_frame(), shader_shade_frag()});
    Program smooth = linked({shader_whole_picture_vert()}, {shader_frame(), shader_smooth_frag()});
    Program edge = linked({shader_frame(), shader_edge_vert()}, {shader_frame(), shader_cut(), shader_edge_frag()});
    OverlayPass overlays{edge_corners};

    ReadableTarget shadow;
    ReadableTarget small_depth;
    ReadableTarget measured;
    ReadableTarget smoothed;
    SampledTarget sampled;
    ReadableTarget whole;  // what the target gets
    Renderbuffer whole_depth;
    GLuint compare = 0;  // samplers of the shadow map: compared, and as it is
    GLuint plain = 0;

    FrameSetup setup{};
    std::vector<ItemRecord> item_records;
    std::vector<Batch> batches;
    FrameCounts counts;

    State() {
        glEnable(GL_TEXTURE_CUBE_MAP_SEAMLESS);
        for (const Program* program : {metal.data(), &metal[1], &surroundings}) {
            set_sampler(*program, "room", kRoomUnit);
            set_sampler(*program, "shade_map", kShadeUnit);
        }
        set_sampler(shade, "depths", kInputUnit);
        set_sampler(shade, "shadow_map", kShadowMapUnit);
        set_sampler(shade, "shadow_depths", kShadowDepthsUnit);
        set_sampler(smooth, "measured", kInputUnit);
        glBindBuffer(GL_UNIFORM_BUFFER, block.name());
        glBufferData(GL_UNIFORM_BUFFER, sizeof(FrameBlock), nullptr, GL_STREAM_DRAW);
        glGenSamplers(1, &compare);
        glGenSamplers(1, &plain);
        for (const GLuint sampler : {compare, plain}) {
            glSamplerParameteri(sampler, GL_TEXTURE_WRAP_S, GL_CLAMP_TO_EDGE);
            glSamplerParameteri(sampler, GL_TEXTURE_WRAP_T, GL_CLAMP_TO_EDGE);
            const GLint filter = sampler == compare ? GL_LINEAR : GL_NEAREST;
            glSamplerParameteri(sampler, GL_TEXTURE_MIN_FILTER, filter);
            glSamplerParameteri(sampler, GL_TEXTURE_MAG_FILTER, filter);
        }
        glSamplerParameteri(compare, GL_TEXTURE_COMPARE_MODE, GL_COMPARE_REF_TO_TEXTURE);
        glSamplerParameteri(compare, GL_TEXTURE_COMPARE_FUNC, GL_LEQUAL);
    }
    ~State() {
        glDeleteSamplers(1, &compare);
        glDeleteSamplers(1, &plain);
    }
    State(const State&) = delete;
    State& operator=(const State&) = delete;

    void make_targets(const Quality& quality, glm::ivec2 size_px);
    void sort_items(const Picture& picture, const Quality& quality);
    void draw_batches(int coarser, bool opened);
    void draw_depths(const glm::mat4& clip_from_observer, bool with_opened);
    void draw_shadow_map();
    void measure_shade();
    void draw_solids(const Picture& picture);
    void draw_edges();
    void draw_surroundings(bool solids_left_their_depth);
};

void Renderer::State::make_targets(const Quality& quality, glm::ivec2 size_px) {
    if (shadow.size_px.x != quality.shadow_map) shadow = depth_target(glm::ivec2(quality.shadow_map));
    if (quality.samples > 1 && (sampled.size_px != size_px || sampled.samples != quality.samples))
        sampled = sampled_target(size_px, quality.samples);
    const int scale =
        std::max(quality.shade_scale, (size_px.y + quality.most_shade_rows - 1) / quality.most_shade_rows);
    const glm::ivec2 small = (size_px + scale - 1) / scale;
    if (small_depth.size_px != small) {
        small_depth = depth_target(small);
        measured = colour_target(small, GL_RGBA32F);
        smoothed = colour_target(small, GL_RGBA32F);
    }
}

// Items of the same mesh come side by side, so that each mesh is drawn once.
void Renderer::State::sort_items(const Picture& picture, const Quality& quality) {
    struct Key {
        std::size_t shape;
        int level;
        bool opened;
        std::size_t item;
        auto operator<=>(const Key&) const = default;
    };
    const Camera& camera = picture.camera;
    const glm::dvec3 eye = eye_mm(camera);
    std::vector<Key> keys;
    keys.reserve(picture.items.size());
    for (std::size_t i = 0; i < picture.items.size(); ++i) {
        const PictureItem& item = picture.items[i];
        double mm_per_px = setup.mm_per_px_at_target;
        if (camera.projection == Projection::perspective) {
            const glm::dvec3 place = glm::dvec3(glm::vec3(item.observer_from_part[3]));
            const double radius_mm = extent_of((*picture.shapes)[item.shape]).radius_mm;
            mm_per_px *= std::max(glm::length(place - eye) - radius_mm, 0.05 * camera.distance_mm) / camera.distance_mm;
        }
        keys.push_back({item.shape, level_for(quality.chord_px * mm_per_px), item.opened, i});
    }
    std::ranges::sort(keys);
    item_records.clear();
    batches.clear();
    for (const Key& key : keys) {
        if (batches.empty() || batches.back().shape != key.shape || batches.back().level != key.level ||
            batches.back().opened != key.opened)
            batches.push_back(
                {key.shape, key.level, key.opened, item_records.size(), 0, -std::numeric_limits<float>::infinity()});
        ++batches.back().count;
        // A machine is a pile of layers: seen from above its top hides the rest, which then needs no shading.
        batches.back().nearness =
            std::max(batches.back().nearness, -setup.block.gaze.z * picture.items[key.item].observer_from_part[3].z);
        item_records.push_back(record_of(picture.items[key.item]));
    }
    std::ranges::stable_sort(batches, std::greater{}, &Batch::nearness);
    glBindBuffer(GL_ARRAY_BUFFER, records.name());
    glBufferData(GL_ARRAY_BUFFER, static_cast<GLsizeiptr>(item_records.size() * sizeof(ItemRecord)),
                 item_records.data(), GL_STREAM_DRAW);
}

void Renderer::State::draw_batches(int coarser, bool opened) {
    for (const Batch& batch : batches) {
        if (batch.opened != opened) continue;
        const UploadedMesh& mesh = store.mesh(batch.shape, batch.level + coarser);
        glBindVertexArray(mesh.array.name());
        bind_records(records, batch.first);
        glDrawElementsInstanced(GL_TRIANGLES, mesh.index_count, GL_UNSIGNED_INT, nullptr,
                                static_cast<GLsizei>(batch.count));
        if (coarser > 0) continue;
        counts.triangles += static_cast<std::size_t>(mesh.index_count) / 3 * batch.count;
        ++counts.draws;
    }
}

void Renderer::State::draw_depths(const glm::mat4& clip_from_observer, bool with_opened) {
    for (const std::size_t opened : {0U, 1U}) {
        if (opened == 1 && !with_opened) break;
        glUseProgram(depth[opened].name());
        glUniformMatrix4fv(glGetUniformLocation(depth[opened].name(), "clip_from_world"), 1, GL_FALSE,
                           glm::value_ptr(clip_from_observer));
        draw_batches(kCoarser, opened == 1);
    }
}

// Parts that are cut open throw no shadow: light falls in as glances do.
void Renderer::State::draw_shadow_map() {
    glBindFramebuffer(GL_FRAMEBUFFER, shadow.framebuffer.name());
    glViewport(0, 0, shadow.size_px.x, shadow.size_px.y);
    glClear(GL_DEPTH_BUFFER_BIT);
    glEnable(GL_POLYGON_OFFSET_FILL);
    glPolygonOffset(1.5F, 4.0F);
    draw_depths(setup.light_clip_from_observer, false);
    glDisable(GL_POLYGON_OFFSET_FILL);
}

void Renderer::State::measure_shade() {
    glBindFramebuffer(GL_FRAMEBUFFER, small_depth.framebuffer.name());
    glViewport(0, 0, small_depth.size_px.x, small_depth.size_px.y);
    glClear(GL_DEPTH_BUFFER_BIT);
    draw_depths(setup.block.clip_from_observer, true);
    glUseProgram(bench_depth.name());
    glBindVertexArray(square.name());
    glDrawArrays(GL_TRIANGLE_STRIP, 0, 4);
    glDisable(GL_DEPTH_TEST);
    bind_texture(kShadowMapUnit, GL_TEXTURE_2D, shadow.image);
    bind_texture(kShadowDepthsUnit, GL_TEXTURE_2D, shadow.image);
    glBindSampler(kShadowMapUnit, compare);
    glBindSampler(kShadowDepthsUnit, plain);
    const auto pass = [](const Program& program, const ReadableTarget& from, const ReadableTarget& into) {
        glBindFramebuffer(GL_FRAMEBUFFER, into.framebuffer.name());
        glUseProgram(program.name());
        bind_texture(kInputUnit, GL_TEXTURE_2D, from.image);
        glDrawArrays(GL_TRIANGLE_STRIP, 0, 4);
    };
    const GLint along = glGetUniformLocation(smooth.name(), "along");
    pass(shade, small_depth, measured);
    glUseProgram(smooth.name());
    glUniform2i(along, 1, 0);
    pass(smooth, measured, smoothed);
    glUniform2i(along, 0, 1);
    pass(smooth, smoothed, measured);
    glEnable(GL_DEPTH_TEST);
    glBindSampler(kShadowMapUnit, 0);
    glBindSampler(kShadowDepthsUnit, 0);
}

void Renderer::State::draw_solids(const Picture& picture) {
    const std::array<Program, 2>& programs = picture.look == Look::line ? line_fill : metal;
    glUseProgram(programs[0].name());
    draw_batches(0, false);
    // What is cut open shows its inside.
    glUseProgram(programs[1].name());
    glDisable(GL_CULL_FACE);
    draw_batches(0, true);
    glEnable(GL_CULL_FACE);
}

void Renderer::State::draw_edges() {
    glUseProgram(edge.name());
    glDisable(GL_CULL_FACE);
    const GLint matrix = glGetUniformLocation(edge.name(), "observer_from_part");
    const GLint opened = glGetUniformLocation(edge.name(), "opened");
    glUniform1f(glGetUniformLocation(edge.name(), "width_px"), std::max(1.1F, setup.block.picture.y / 900.0F));
    for (const Batch& batch : batches) {
        const UploadedEdges& edges = store.edges(batch.shape, batch.level);
        glBindVertexArray(edges.array.name());
        glUniform1f(opened, batch.opened ? 1.0F : 0.0F);
        for (std::size_t i = batch.first; i < batch.first + batch.count; ++i) {
            const std::array<glm::vec4, 3>& rows = item_records[i].rows;
            const glm::mat4 observer_from_part =
                glm::transpose(glm::mat4(rows[0], rows[1], rows[2], glm::vec4(0, 0, 0, 1)));
            glUniformMatrix4fv(matrix, 1, GL_FALSE, glm::value_ptr(observer_from_part));
            glDrawArraysInstanced(GL_TRIANGLE_STRIP, 0, 4, edges.count);
        }
    }
    glEnable(GL_CULL_FACE);
}

// Under what is drawn already: nothing stands below the bench top, so it needs no depth and no samples of its own.
// Where the solids left their depth, what they hide is spared.
void Renderer::State::draw_surroundings(bool solids_left_their_depth) {
    glBindVertexArray(square.name());
    if (!solids_left_their_depth) glDisable(GL_DEPTH_TEST);
    glEnable(GL_BLEND);
    glBlendFunc(GL_ONE_MINUS_DST_ALPHA, GL_ONE);
    glUseProgram(surroundings.name());
    glDrawArrays(GL_TRIANGLE_STRIP, 0, 4);
    glDisable(GL_BLEND);
    glEnable(GL_DEPTH_TEST);
}

Renderer::Renderer() : state_(std::make_unique<State>()) {}
Renderer::~Renderer() = default;

FrameCounts Renderer::counts() const {
    return state_->counts;
}

void Renderer::draw(const Picture& picture, const Quality& quality, glm::ivec2 size_px, unsigned framebuffer) {
    State& state = *state_;
    state.counts = {};
    state.make_targets(quality, size_px);
    const unsigned own = own_target(size_px);
    state.store.use(picture.shapes);
    state.setup = frame_setup(picture, quality, size_px, state.irradiance, kRoomLevels);
    const bool shaded = picture.look != Look::line;
    glBindBufferBase(GL_UNIFORM_BUFFER, 0, state.block.name());
    glBufferData(GL_UNIFORM_BUFFER, sizeof(FrameBlock), &state.setup.block, GL_STREAM_DRAW);
    state.sort_items(picture, quality);
    glEnable(GL_DEPTH_TEST);
    glEnable(GL_CULL_FACE);
    glDisable(GL_BLEND);
    glDepthFunc(GL_LESS);
    if (shaded) {
        state.draw_shadow_map();
        state.measure_shade();
        bind_texture(kRoomUnit, GL_TEXTURE_CUBE_MAP, state.room);
        bind_texture(kShadeUnit, GL_TEXTURE_2D, state.measured.image);
    }
    // One sample a pixel needs no image of its own.
    const unsigned scene = quality.samples > 1 ? state.sampled.framebuffer.name() : own;
    glBindFramebuffer(GL_FRAMEBUFFER, scene);
    glViewport(0, 0, size_px.x, size_px.y);
    const float paper = picture.transparent || shaded ? 0.0F : 1.0F;
    glClearColor(paper, paper, paper, paper);
    glClear(GL_COLOR_BUFFER_BIT | GL_DEPTH_BUFFER_BIT);
    state.draw_solids(picture);
    if (!shaded) state.draw_edges();
    glDisable(GL_CULL_FACE);
    state.overlays.draw_in_space(picture, state.setup.block.clip_from_observer, size_px);

    if (scene != own) copy(scene, own, size_px);
    glBindFramebuffer(GL_FRAMEBUFFER, own);
    if (shaded) state.draw_surroundings(scene == own);
    state.overlays.draw_texts(picture, state.setup.block.clip_from_observer, size_px);
    if (framebuffer != own) copy(own, framebuffer, size_px);
    glBindFramebuffer(GL_FRAMEBUFFER, framebuffer);
    glActiveTexture(GL_TEXTURE0);
    glBindVertexArray(0);
    glUseProgram(0);
}

unsigned Renderer::own_target(glm::ivec2 size_px) {
    if (state_->whole.size_px != size_px) {
        state_->whole = colour_target(size_px, GL_RGBA8);
        state_->whole_depth = depth_for(state_->whole);
    }
    return state_->whole.framebuffer.name();
}

void Renderer::copy_own(unsigned framebuffer, glm::ivec2 size_px) {
    const ReadableTarget& own = state_->whole;
    glBindFramebuffer(GL_READ_FRAMEBUFFER, own.framebuffer.name());
    glBindFramebuffer(GL_DRAW_FRAMEBUFFER, framebuffer);
    glBlitFramebuffer(0, 0, own.size_px.x, own.size_px.y, 0, 0, size_px.x, size_px.y, GL_COLOR_BUFFER_BIT,
                      own.size_px == size_px ? GL_NEAREST : GL_LINEAR);
    glBindFramebuffer(GL_FRAMEBUFFER, framebuffer);
}

void Renderer::finish() {
    glFinish();
}

Image Renderer::image_of(const Picture& picture, const Quality& quality, glm::ivec2 size_px) {
    draw(picture, quality, size_px, own_target(size_px));
    PixelRing ring(size_px, 1);
    ring.ask(own_target(size_px));
    return ring.fetch(picture.transparent ? Alpha::straightened : Alpha::opaque);
}

}  // namespace couplet
