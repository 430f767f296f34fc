# Installs what was built into a folder of its own, builds the example there and checks its words.
function(run)
    execute_process(COMMAND ${ARGN} RESULT_VARIABLE code OUTPUT_VARIABLE out ERROR_VARIABLE err)
    if(NOT code EQUAL 0)
        message(FATAL_ERROR "${ARGN}\nended with ${code}\n${out}\n${err}")
    endif()
    set(said "${out}" PARENT_SCOPE)
endfunction()

file(REMOVE_RECURSE ${WORK})
run(${CMAKE_COMMAND} --install ${BUILT} --prefix ${WORK}/installed)
run(${CMAKE_COMMAND} -S ${EXAMPLE} -B ${WORK}/build -D CMAKE_PREFIX_PATH=${WORK}/installed
    -D CMAKE_CXX_COMPILER=${COMPILER} -D CMAKE_CXX_FLAGS=${FLAGS})
run(${CMAKE_COMMAND} --build ${WORK}/build)
run(${WORK}/build/year_of_light)
message("${said}")
if(NOT said MATCHES "minutes of sun in the year, [0-9.]+ of them full")
    message(FATAL_ERROR "The example said:\n${said}")
endif()
