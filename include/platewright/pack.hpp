// A pack: many sheets of many figures in one PDF for each edition, from a
// manifest that people write. An edition is a label set on a paper.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "platewright/engine.hpp"

namespace platewright {

struct PackRequest {
  std::string manifest;
  std::string out;                 // folder
  std::string cache;               // folder; empty: the usual one
  int jobs = 0;                    // 0: one for each processor
  std::vector<std::string> only;   // editions "middle-a4"; empty: all
  std::string part;                // make just this part, into the cache
  bool bind_only = false;          // join parts that are there, make none
};

struct PackProgress {
  int done = 0;   // parts
  int total = 0;
  int editions_done = 0;
  int editions = 0;
};
using WatchPack = std::function<void(const PackProgress&)>;

struct MadeEdition {
  std::string name;   // "middle-a4"
  std::string set;
  std::string paper;
  std::string file;
  std::string keys_file;  // where keys go to a file of their own
  int sheets = 0;
  int pages = 0;          // in both files
};
struct MadePack {
  std::vector<MadeEdition> editions;
  int parts_made = 0;
  int parts_kept = 0;     // taken from the cache
  double seconds = 0;
};

// The folder that solved and drawn sheets are kept in when none is named:
// platewright below XDG_CACHE_HOME or ~/.cache; empty where neither is known.
std::string usual_cache();

// Makes all editions, or those asked for, or one part. An edition's files
// appear whole or stay as they were. `watch` may be empty; it is called from
// one thread at a time.
Result<MadePack> make_pack(const PackRequest& request, const Environment& environment,
                           const WatchPack& watch = {});

// One line of arguments for each part of the work, in the order of the editions:
// "platewright pack MANIFEST --part heart/middle/a4 --cache DIR", quoted for a shell.
Result<std::vector<std::string>> pack_commands(const PackRequest& request,
                                               const Environment& environment);

// What was made, as JSON (RFC 8259).
std::string to_json(const MadePack& made, const Findings& findings);

}  // namespace platewright
