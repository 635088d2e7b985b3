# Where each library comes from: the system's packages, installed by install.sh beside this file.
find_package(fmt REQUIRED)
find_package(nlohmann_json REQUIRED)
find_package(CLI11 REQUIRED)
find_package(PkgConfig REQUIRED)
pkg_check_modules(tomlplusplus REQUIRED IMPORTED_TARGET tomlplusplus)

# GMP has no CMake package; its static library, where there is one, spares every start of the program a shared one.
find_path(GMP_INCLUDE_DIR gmp.h REQUIRED)
find_library(GMP_LIBRARY NAMES libgmp.a gmp REQUIRED)
add_library(gmp INTERFACE IMPORTED)
target_include_directories(gmp SYSTEM INTERFACE ${GMP_INCLUDE_DIR})
target_link_libraries(gmp INTERFACE ${GMP_LIBRARY})
