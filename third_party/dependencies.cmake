# Where each library comes from: the system's packages, installed by install.sh beside this file.
find_package(fmt REQUIRED)
# fmt_once.cpp says why. A program with the formats that are used must link with it.
file(WRITE ${CMAKE_BINARY_DIR}/fmt_use.cpp
     "#include <fmt/format.h>\n#include <string>\n#include <vector>\nint main(int n, char**) {\n"
     "    const std::vector<std::string> words(2);\n"
     "    fmt::print(stderr, \"{} {:.3f} {:g} {:>8} {:x} {}\", n, 1.5 * n, 2.5f, \"a\", 255, fmt::join(words, \",\"));\n}\n")
try_compile(COUPLET_FMT_ONCE ${CMAKE_BINARY_DIR}/fmt_use
            SOURCES ${CMAKE_CURRENT_LIST_DIR}/fmt_once.cpp ${CMAKE_BINARY_DIR}/fmt_use.cpp CXX_STANDARD 20)
if(COUPLET_FMT_ONCE)
  add_library(fmt_once STATIC ${CMAKE_CURRENT_LIST_DIR}/fmt_once.cpp)
else()
  add_library(fmt_once INTERFACE)
  target_link_libraries(fmt_once INTERFACE fmt::fmt-header-only)
endif()
find_package(nlohmann_json REQUIRED)
find_package(CLI11 REQUIRED)
find_package(glm REQUIRED)
find_package(glfw3 3.3 REQUIRED)
find_package(PkgConfig REQUIRED)
pkg_check_modules(tomlplusplus REQUIRED IMPORTED_TARGET tomlplusplus)

# The window's user interface: a static library with its backends for GLFW and OpenGL 3.
pkg_check_modules(dear_imgui REQUIRED IMPORTED_TARGET imgui)
add_library(imgui ALIAS PkgConfig::dear_imgui)

# A static library, where there is one, spares every start of the program a shared one.
# GMP has no CMake package.
find_path(GMP_INCLUDE_DIR gmp.h REQUIRED)
find_library(GMP_LIBRARY NAMES libgmp.a gmp REQUIRED)
add_library(gmp INTERFACE IMPORTED)
target_include_directories(gmp SYSTEM INTERFACE ${GMP_INCLUDE_DIR})
target_link_libraries(gmp INTERFACE ${GMP_LIBRARY})

find_path(PNG_INCLUDE_DIR png.h REQUIRED)
find_library(PNG_LIBRARY NAMES libpng.a png REQUIRED)
find_library(ZLIB_LIBRARY NAMES libz.a z REQUIRED)
add_library(png INTERFACE IMPORTED)
target_include_directories(png SYSTEM INTERFACE ${PNG_INCLUDE_DIR})
target_link_libraries(png INTERFACE ${PNG_LIBRARY} ${ZLIB_LIBRARY})

# Archives: what a 3MF file is.
find_path(MINIZIP_INCLUDE_DIR minizip/zip.h REQUIRED)
find_library(MINIZIP_LIBRARY NAMES libminizip.a minizip REQUIRED)
add_library(minizip INTERFACE IMPORTED)
target_include_directories(minizip SYSTEM INTERFACE ${MINIZIP_INCLUDE_DIR})
target_link_libraries(minizip INTERFACE ${MINIZIP_LIBRARY} ${ZLIB_LIBRARY})

# Headers only: stb's implementation is compiled where it is used.
find_path(STB_INCLUDE_DIR stb/stb_truetype.h REQUIRED)
add_library(stb INTERFACE IMPORTED)
target_include_directories(stb SYSTEM INTERFACE ${STB_INCLUDE_DIR})

# The font of the picture and of the window.
foreach(weight Regular Bold)
  find_file(B612_${weight} NAMES B612-${weight}.otf B612-${weight}.ttf
            PATHS /usr/share/fonts /usr/local/share/fonts $ENV{HOME}/.local/share/fonts $ENV{HOME}/Library/Fonts
            PATH_SUFFIXES opentype/b612 truetype/b612 OTF TTF b612 polarsys-b612-fonts)
  if(NOT B612_${weight})
    message(FATAL_ERROR "The font file B612-${weight}.otf is not here. Install the font B612 (Debian: fonts-b612), or "
                        "say where the file is: -DB612_${weight}=/path/to/B612-${weight}.otf")
  endif()
endforeach()

# OpenGL's and EGL's functions, found when the program asks for them: nothing to link, and no start that does not draw
# pays for them.
find_program(GLAD_GENERATOR glad REQUIRED)
find_path(EGL_INCLUDE_DIR EGL/eglplatform.h REQUIRED)
set(GLAD_FOLDER ${CMAKE_BINARY_DIR}/glad)
set(GLAD_EXTENSIONS GL_KHR_debug EGL_EXT_platform_base EGL_EXT_device_base EGL_EXT_device_enumeration
                    EGL_EXT_platform_device EGL_MESA_platform_surfaceless)
list(JOIN GLAD_EXTENSIONS "," GLAD_EXTENSION_LIST)
if(NOT EXISTS ${GLAD_FOLDER}/include/glad/egl.h)
  execute_process(
    COMMAND ${GLAD_GENERATOR} --api gl:core=3.3,egl=1.5 --extensions ${GLAD_EXTENSION_LIST} --reproducible --quiet
            --out-path ${GLAD_FOLDER} c --header-only --loader
    COMMAND_ERROR_IS_FATAL ANY ERROR_QUIET)
endif()
add_library(glad INTERFACE IMPORTED)
target_include_directories(glad SYSTEM INTERFACE ${GLAD_FOLDER}/include ${EGL_INCLUDE_DIR})
target_link_libraries(glad INTERFACE ${CMAKE_DL_LIBS})
