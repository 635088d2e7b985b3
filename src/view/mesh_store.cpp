#include "view/mesh_store.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>

#include "view/edges.hpp"

namespace couplet {

namespace {

// 16 bytes a vertex: the position, and normal and surface packed as solid.vert unpacks them.
struct PackedVertex {
    float x, y, z;
    std::uint32_t normal_and_surface;
};

PackedVertex packed(const SolidVertex& vertex) {
    const auto ten_bits = [](float n) {
        return static_cast<std::uint32_t>(std::lround(std::clamp(n * 0.5F + 0.5F, 0.0F, 1.0F) * 1023.0F));
    };
    return {vertex.position_mm[0], vertex.position_mm[1], vertex.position_mm[2],
            ten_bits(vertex.normal[0]) | ten_bits(vertex.normal[1]) << 10U | ten_bits(vertex.normal[2]) << 20U |
                static_cast<std::uint32_t>(vertex.surface) << 30U};
}

template <class Record>
Buffer filled(GLenum target, const std::vector<Record>& records) {
    Buffer buffer = new_buffer();
    glBindBuffer(target, buffer.name());
    glBufferData(target, static_cast<GLsizeiptr>(records.size() * sizeof(Record)), records.data(), GL_STATIC_DRAW);
    return buffer;
}

const void* offset(std::size_t bytes) {
    return reinterpret_cast<const void*>(bytes);  // NOLINT(performance-no-int-to-ptr): OpenGL's way to give an offset
}

UploadedMesh uploaded(const Solid& solid) {
    std::vector<PackedVertex> vertices;
    vertices.reserve(solid.vertices.size());
    for (const SolidVertex& vertex : solid.vertices) vertices.push_back(packed(vertex));
    UploadedMesh mesh;
    mesh.array = new_vertex_array();
    glBindVertexArray(mesh.array.name());
    mesh.vertices = filled(GL_ARRAY_BUFFER, vertices);
    mesh.indices = filled(GL_ELEMENT_ARRAY_BUFFER, solid.triangles);
    mesh.index_count = static_cast<GLsizei>(solid.triangles.size() * 3);
    glEnableVertexAttribArray(0);
    glVertexAttribPointer(0, 3, GL_FLOAT, GL_FALSE, sizeof(PackedVertex), nullptr);
    glEnableVertexAttribArray(1);
    glVertexAttribPointer(1, 4, GL_UNSIGNED_INT_2_10_10_10_REV, GL_TRUE, sizeof(PackedVertex), offset(12));
    return mesh;
}

UploadedEdges uploaded(const std::vector<SolidEdge>& edges, const Buffer& corners) {
    UploadedEdges result;
    result.array = new_vertex_array();
    glBindVertexArray(result.array.name());
    glBindBuffer(GL_ARRAY_BUFFER, corners.name());
    glEnableVertexAttribArray(0);
    glVertexAttribPointer(0, 2, GL_FLOAT, GL_FALSE, 0, nullptr);
    result.records = filled(GL_ARRAY_BUFFER, edges);
    result.count = static_cast<GLsizei>(edges.size());
    for (GLuint i = 0; i < 4; ++i) {
        glEnableVertexAttribArray(i + 1);
        glVertexAttribPointer(i + 1, 3, GL_FLOAT, GL_FALSE, sizeof(SolidEdge), offset(sizeof(float) * 3 * i));
        glVertexAttribDivisor(i + 1, 1);
    }
    return result;
}

double chord_of(int level) {
    return kFinestChord_mm * std::exp2(level);
}

}  // namespace

int level_for(double tolerance_mm) {
    const double level = std::floor(std::log2(tolerance_mm / kFinestChord_mm));
    return static_cast<int>(std::clamp(level, 0.0, static_cast<double>(kCoarsestLevel)));
}

void MeshStore::use(const std::shared_ptr<const std::vector<Shape>>& shapes) {
    if (shapes == shapes_) return;
    meshes_.clear();
    edges_.clear();
    shapes_ = shapes;
}

const UploadedMesh& MeshStore::mesh(std::size_t shape, int level) {
    const auto key = std::pair{shape, std::min(level, kCoarsestLevel)};
    const auto found = meshes_.find(key);
    if (found != meshes_.end()) return found->second;
    return meshes_.emplace(key, uploaded(solid_of((*shapes_)[shape], chord_of(key.second)))).first->second;
}

const UploadedEdges& MeshStore::edges(std::size_t shape, int level) {
    const auto key = std::pair{shape, std::min(level, kCoarsestLevel)};
    const auto found = edges_.find(key);
    if (found != edges_.end()) return found->second;
    const std::vector<SolidEdge> edges = edges_of(solid_of((*shapes_)[shape], chord_of(key.second)));
    return edges_.emplace(key, uploaded(edges, corners_)).first->second;
}

}  // namespace couplet
