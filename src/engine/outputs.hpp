// What a run may write to: nothing that it reads, and nothing twice.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "engine/write.hpp"
#include "platewright/engine.hpp"
#include "platewright/finding.hpp"

namespace platewright {

struct InputFile {
  std::string path;
  std::string what;  // "the figure"
};

// What a request for sheets reads; the pictures in its figure among it.
std::vector<InputFile> inputs_of(const SheetRequest& request, const Environment& environment);
// A style's own file and those that it extends.
std::vector<InputFile> style_inputs(const std::string& style, const Environment& environment);

std::vector<std::string> paths_of(const std::vector<OutputFile>& files);

// Errors `output-is-input` and `output-twice`, by the files themselves, however they are
// named. To be asked before anything is written. `inputs` is asked only where an output is there
// already.
Findings misdirected(const std::vector<std::string>& outputs,
                     const std::function<std::vector<InputFile>()>& inputs);

}  // namespace platewright
