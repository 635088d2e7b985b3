# embed_text(NAME FILE), embed_bytes(NAME FILE): a source file, in the variable NAME_SOURCE, that defines
# couplet::NAME() as the text of FILE (a std::string_view) or as its bytes (a std::span<const std::byte>); it is made
# again whenever FILE changes.
#
# Included, this file defines the functions; run as a script (cmake -P) with KIND, NAME, INPUT and OUTPUT it writes the
# source.
if(CMAKE_SCRIPT_MODE_FILE)
  if(KIND STREQUAL text)
    file(READ ${INPUT} text)
    # The delimiter of the raw string must not occur in the text.
    set(delimiter embedded)
    string(FIND "${text}" ")${delimiter}\"" found)
    while(NOT found EQUAL -1)
      string(APPEND delimiter "_")
      string(FIND "${text}" ")${delimiter}\"" found)
    endwhile()
    file(WRITE ${OUTPUT}
      "#include <string_view>\n\nnamespace couplet {\n\nstd::string_view ${NAME}();\n\n"
      "std::string_view ${NAME}() { return R\"${delimiter}(${text})${delimiter}\"; }\n\n}  // namespace couplet\n")
  else()
    file(READ ${INPUT} bytes HEX)
    # Lines of 16 bytes: not every compiler takes a line of any length.
    string(REPEAT "." 32 line)
    string(REGEX REPLACE "(${line})" "\\1\n" bytes "${bytes}")
    string(REGEX REPLACE "([0-9a-f][0-9a-f])" "0x\\1," bytes "${bytes}")
    file(WRITE ${OUTPUT}
      "#include <cstddef>\n#include <span>\n\nnamespace couplet {\n\nstd::span<const std::byte> ${NAME}();\n\n"
      "const unsigned char kBytes[] = {\n${bytes}};\n\n"
      "std::span<const std::byte> ${NAME}() { return std::as_bytes(std::span(kBytes)); }\n\n}  // namespace couplet\n")
  endif()
  return()
endif()

set(EMBED_SCRIPT ${CMAKE_CURRENT_LIST_FILE})

function(embed_as kind name file)
  set(source ${CMAKE_CURRENT_BINARY_DIR}/${name}.cpp)
  add_custom_command(
    OUTPUT ${source}
    COMMAND ${CMAKE_COMMAND} -DKIND=${kind} -DNAME=${name} -DINPUT=${file} -DOUTPUT=${source} -P ${EMBED_SCRIPT}
    DEPENDS ${file} ${EMBED_SCRIPT}
    COMMENT "Embedding ${file}")
endfunction()

function(embed_text name file)
  embed_as(text ${name} ${file})
  set(${name}_SOURCE ${CMAKE_CURRENT_BINARY_DIR}/${name}.cpp PARENT_SCOPE)
endfunction()

function(embed_bytes name file)
  embed_as(bytes ${name} ${file})
  set(${name}_SOURCE ${CMAKE_CURRENT_BINARY_DIR}/${name}.cpp PARENT_SCOPE)
endfunction()
