// Mesh store: the shapes of a picture as they lie in the graphics memory, each as finely as it is needed.
//
// A level's chords leave their curves by kFinestChord_mm times two to the level. For files of this room only.
#pragma once

#include <map>
#include <memory>
#include <utility>
#include <vector>

#include "solid/shape.hpp"
#include "view/gl.hpp"

namespace couplet {

inline constexpr double kFinestChord_mm = 0.004;
inline constexpr int kCoarsestLevel = 9;

// The coarsest level whose chords stay within the tolerance.
[[nodiscard]] int level_for(double tolerance_mm);

struct UploadedMesh {
    VertexArray array;  // positions and normals bound; what is per item binds the renderer
    Buffer vertices;
    Buffer indices;
    GLsizei index_count = 0;
};

// Edges for the line look, one record each (shaders/edge.vert).
struct UploadedEdges {
    VertexArray array;
    Buffer records;
    GLsizei count = 0;
};

class MeshStore {
  public:
    explicit MeshStore(const Buffer& corners) : corners_(corners) {}

    // Forgets all meshes unless the list is the one of the last call.
    void use(const std::shared_ptr<const std::vector<Shape>>& shapes);

    [[nodiscard]] const UploadedMesh& mesh(std::size_t shape, int level);
    [[nodiscard]] const UploadedEdges& edges(std::size_t shape, int level);

  private:
    const Buffer& corners_;  // of the quad that an edge becomes
    std::shared_ptr<const std::vector<Shape>> shapes_;
    std::map<std::pair<std::size_t, int>, UploadedMesh> meshes_;
    std::map<std::pair<std::size_t, int>, UploadedEdges> edges_;
};

}  // namespace couplet
