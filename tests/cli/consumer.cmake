# Installs the build into a scratch prefix, takes the C++ example out of the
# README, builds it with find_package(platewright) and runs it.
set(work ${BUILD}/tests/cli/consumer-work)
file(REMOVE_RECURSE ${work})
file(MAKE_DIRECTORY ${work})

function(run)
  execute_process(COMMAND ${ARGN} RESULT_VARIABLE code OUTPUT_VARIABLE out ERROR_VARIABLE out)
  if(NOT code EQUAL 0)
    message(FATAL_ERROR "${ARGN} exited with ${code}:\n${out}")
  endif()
endfunction()

run(${CMAKE_COMMAND} --install ${BUILD} --prefix ${work}/prefix)

file(READ ${SOURCE}/README.md readme)
string(REGEX MATCH "```cpp\n([^`]*)```" found "${readme}")
if(NOT found)
  message(FATAL_ERROR "README.md has no C++ example")
endif()
# A list separator of CMake's own inside C++ code must survive.
string(REGEX REPLACE "^```cpp\n" "" example "${found}")
string(REGEX REPLACE "```$" "" example "${example}")
file(WRITE ${work}/example.cpp "${example}")

run(${CMAKE_COMMAND} -S ${CONSUMER} -B ${work}/build -G ${GENERATOR}
    -DCMAKE_PREFIX_PATH=${work}/prefix -DCMAKE_CXX_COMPILER=${COMPILER} "-DCMAKE_CXX_FLAGS=${FLAGS}"
    -DEXAMPLE=${work}/example.cpp)
run(${CMAKE_COMMAND} --build ${work}/build)
file(COPY ${SOURCE}/figures DESTINATION ${work}/run)
execute_process(COMMAND ${work}/build/consumer WORKING_DIRECTORY ${work}/run RESULT_VARIABLE code
                OUTPUT_VARIABLE out ERROR_VARIABLE out)
if(NOT code EQUAL 0 OR NOT EXISTS ${work}/run/heart.pdf)
  message(FATAL_ERROR "the example exited with ${code}:\n${out}")
endif()
