#include "engine/outputs.hpp"

#include <algorithm>
#include <filesystem>
#include <utility>

#include "base/quote.hpp"
#include "read/read.hpp"

namespace platewright {
namespace {

namespace fs = std::filesystem;

// A file that is there is told by the file system, one that is still to come by its place.
bool same_file(const std::string& a, const std::string& b) {
  std::error_code ec;
  if (fs::equivalent(a, b, ec)) return true;
  const fs::path first = fs::weakly_canonical(fs::absolute(a, ec), ec);
  if (ec) return false;
  const fs::path second = fs::weakly_canonical(fs::absolute(b, ec), ec);
  return !ec && first == second;
}

}  // namespace

std::vector<InputFile> style_inputs(const std::string& style, const Environment& environment) {
  std::vector<InputFile> inputs;
  for (const std::string& file : read::style_files(style, environment.style_folders))
    inputs.push_back({file, inputs.empty() ? "the style" : "what the style extends"});
  return inputs;
}

std::vector<InputFile> inputs_of(const SheetRequest& request, const Environment& environment) {
  std::vector<InputFile> inputs{{request.figure, "the figure"}};
  if (!request.terms.empty()) inputs.push_back({request.terms, "the table of terms"});
  for (InputFile& file : style_inputs(request.style, environment))
    inputs.push_back(std::move(file));
  const auto bytes = read::file_bytes(request.figure, read::Limits{}.file_bytes);
  if (!bytes.ok()) return inputs;
  for (const std::string& image : read::image_files(*bytes, request.figure))
    inputs.push_back({image, "a picture in the figure"});
  return inputs;
}

std::vector<std::string> paths_of(const std::vector<OutputFile>& files) {
  std::vector<std::string> paths;
  for (const OutputFile& file : files) paths.push_back(file.path);
  return paths;
}

Findings misdirected(const std::vector<std::string>& outputs,
                     const std::function<std::vector<InputFile>()>& inputs) {
  Findings findings;
  const auto there = [](const std::string& path) {
    std::error_code ec;
    return fs::exists(path, ec);
  };
  const std::vector<InputFile> sources =
      std::any_of(outputs.begin(), outputs.end(), there) ? inputs() : std::vector<InputFile>{};
  for (std::size_t i = 0; i < outputs.size(); ++i) {
    const SourcePosition at{outputs[i], 0, 0};
    for (const InputFile& input : sources)
      if (there(input.path) && same_file(outputs[i], input.path)) {
        findings.push_back(error("output-is-input", at,
                                 "this is " + input.what + ", which would be written over",
                                 "name another file to write to"));
        break;
      }
    for (std::size_t k = 0; k < i; ++k)
      if (same_file(outputs[i], outputs[k])) {
        findings.push_back(error(
            "output-twice", at,
            outputs[i] == outputs[k]
                ? "two things would be written to this one file"
                : "this is the same file as " + in_quotes(outputs[k]) + ", which is written too",
            "name a file for each"));
        break;
      }
  }
  return findings;
}

}  // namespace platewright
