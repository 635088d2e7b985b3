# embed_text(NAME FILE): a source file, in the variable NAME_SOURCE, that defines std::string_view couplet::NAME() as the
# text of FILE; it is made again whenever FILE changes.
#
# Included, this file defines the function; run as a script (cmake -P) with NAME, INPUT and OUTPUT it writes the source.
if(CMAKE_SCRIPT_MODE_FILE)
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
  return()
endif()

set(EMBED_SCRIPT ${CMAKE_CURRENT_LIST_FILE})

function(embed_text name file)
  set(source ${CMAKE_CURRENT_BINARY_DIR}/${name}.cpp)
  add_custom_command(
    OUTPUT ${source}
    COMMAND ${CMAKE_COMMAND} -DNAME=${name} -DINPUT=${file} -DOUTPUT=${source} -P ${EMBED_SCRIPT}
    DEPENDS ${file} ${EMBED_SCRIPT}
    COMMENT "Embedding ${file}")
  set(${name}_SOURCE ${source} PARENT_SCOPE)
endfunction()
