# Writes OUT, a C++ source that takes in every file under ROOT (the built page) as it is, plain and compressed, with
# its content type and digest. The assembler's .incbin reads the bytes, so that the compiler never sees them. Forms the
# page's own build made (.gz, .br) are used; those it did not make are made here when a program for it is found.
# Run as: cmake -DROOT=… -DOUT=… -DWORK=… -DGZIP=… -DNODE=… -P embed_page.cmake
set(text "#include \"server/static_page.h\"\n\n#include <array>\n#include <cstddef>\n\n")
file(GLOB_RECURSE names RELATIVE "${ROOT}" "${ROOT}/*")
list(FILTER names EXCLUDE REGEX "\\.(gz|br|map)$")
list(SORT names COMPARE STRING)
file(REMOVE_RECURSE "${WORK}")
file(MAKE_DIRECTORY "${WORK}")

function(content_type_of name result)
  set(types
    html "text/html; charset=utf-8" js "text/javascript; charset=utf-8" mjs "text/javascript; charset=utf-8"
    css "text/css; charset=utf-8" json "application/json; charset=utf-8"
    webmanifest "application/manifest+json; charset=utf-8" svg "image/svg+xml" png "image/png" webp "image/webp"
    ico "image/x-icon" woff2 "font/woff2" txt "text/plain; charset=utf-8" wasm "application/wasm")
  string(REGEX REPLACE ".*\\." "" suffix "${name}")
  list(FIND types "${suffix}" at)
  if(at EQUAL -1)
    set(${result} "application/octet-stream" PARENT_SCOPE)
  else()
    math(EXPR at "${at} + 1")
    list(GET types ${at} type)
    set(${result} "${type}" PARENT_SCOPE)
  endif()
endfunction()

# The path of a compressed form of a file, or nothing when it would not be smaller.
function(compressed_form name suffix result)
  set(made "${ROOT}/${name}.${suffix}")
  if(NOT EXISTS "${made}")
    string(MD5 short "${name}")
    set(made "${WORK}/${short}.${suffix}")
    if(suffix STREQUAL "gz" AND GZIP)
      execute_process(COMMAND "${GZIP}" -9 -n -c "${ROOT}/${name}" OUTPUT_FILE "${made}" COMMAND_ERROR_IS_FATAL ANY)
    elseif(suffix STREQUAL "br" AND NODE)
      execute_process(
        COMMAND "${NODE}" -e
                "const fs=require('fs'),z=require('zlib');fs.writeFileSync(process.argv[2],z.brotliCompressSync(fs.readFileSync(process.argv[1])))"
                "${ROOT}/${name}" "${made}"
        COMMAND_ERROR_IS_FATAL ANY)
    endif()
  endif()
  set(${result} "" PARENT_SCOPE)
  if(EXISTS "${made}")
    file(SIZE "${made}" small)
    file(SIZE "${ROOT}/${name}" large)
    if(small LESS large)
      set(${result} "${made}" PARENT_SCOPE)
    endif()
  endif()
endfunction()

set(rows "")
set(declared "")
set(count 0)
macro(take_in path symbol)
  file(SIZE "${path}" size)
  string(APPEND text
    "__asm__(\".section .rodata\\n.balign 16\\n.global ${symbol}\\n${symbol}:\\n.incbin \\\"${path}\\\"\\n.byte 0\\n.previous\");\n")
  string(APPEND declared "extern \"C\" const char ${symbol}[];\n")
  string(APPEND rows "std::string_view(${symbol}, ${size}), ")
endmacro()

foreach(name IN LISTS names)
  content_type_of("${name}" type)
  file(SHA256 "${ROOT}/${name}" digest)
  string(APPEND rows "    {\"${name}\", \"${type}\", \"${digest}\", ")
  take_in("${ROOT}/${name}" "pumpwright_page_${count}")
  foreach(suffix gz br)
    set(form "")
    if(type MATCHES "^text/|json|svg|wasm|x-icon")
      compressed_form("${name}" ${suffix} form)
    endif()
    if(form)
      take_in("${form}" "pumpwright_page_${count}_${suffix}")
    else()
      string(APPEND rows "std::string_view(), ")
    endif()
  endforeach()
  string(APPEND rows "},\n")
  math(EXPR count "${count} + 1")
endforeach()

string(APPEND text "${declared}\nnamespace pumpwright::server {\n\nstd::span<const PageFile> embedded_page() {\n")
string(APPEND text "  static const std::array<PageFile, ${count}> files{{\n${rows}  }};\n  return files;\n}\n\n")
string(APPEND text "}  // namespace pumpwright::server\n")
file(WRITE "${OUT}" "${text}")
