// Validated: what the Khronos glTF validator says of a file, for tests.
//
// COUPLET_NPM is the folder that third_party/install.sh --tests installs it into; a test without it fails.
#pragma once

#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

namespace couplet {

// Errors, warnings, infos and hints, a line each; empty where there are none.
[[nodiscard]] inline std::string validator_messages(const std::string& glb) {
    namespace fs = std::filesystem;
    const fs::path folder = fs::temp_directory_path() / ("couplet_validated_" + std::to_string(getpid()));
    fs::create_directories(folder);
    std::ofstream(folder / "model.glb", std::ios::binary) << glb;
    const std::string command = "NODE_PATH='" COUPLET_NPM "/node_modules' node '" COUPLET_ROOT
                                "/tests/export/validate_gltf.js' '" +
                                (folder / "model.glb").string() + "' >'" + (folder / "said").string() + "' 2>&1";
    const int status = std::system(command.c_str());  // NOLINT(cert-env33-c): a program of the test's
    std::stringstream said;
    said << std::ifstream(folder / "said").rdbuf();
    fs::remove_all(folder);
    return status == 0 ? said.str() : "the validator did not run: " + said.str();
}

}  // namespace couplet
