#include <cstdlib>
#include <filesystem>

#include "base/number.hpp"
#include "platewright/engine.hpp"

#ifndef PW_DATA_DIR
#define PW_DATA_DIR ""
#endif
#ifndef PW_SOURCE_STYLES
#define PW_SOURCE_STYLES ""
#endif

namespace platewright {

Environment usual_environment() {
  namespace fs = std::filesystem;
  Environment environment;
  std::error_code ignored;
  const auto add = [&](const std::string& folder) {
    if (!folder.empty() && fs::is_directory(folder, ignored))
      environment.style_folders.push_back(folder);
  };
  if (const char* asked = std::getenv("PLATEWRIGHT_STYLES")) add(asked);
  // Beside an installed program first, so that a moved installation works.
  const fs::path self = fs::read_symlink("/proc/self/exe", ignored);
  if (!self.empty())
    add((self.parent_path() / ".." / "share" / "platewright" / "styles").lexically_normal());
  add(PW_SOURCE_STYLES);
  add(PW_DATA_DIR "/styles");

  for (const char* file : {"/usr/share/hershey-fonts/futural.jhf"})
    if (fs::exists(file, ignored)) environment.stroke_font = file;

  if (const char* epoch = std::getenv("SOURCE_DATE_EPOCH"))
    if (const auto seconds = parse_number(epoch); seconds && *seconds >= 0)
      environment.source_date = static_cast<long long>(*seconds);
  return environment;
}

}  // namespace platewright
