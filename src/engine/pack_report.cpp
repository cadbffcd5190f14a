// What a build of a pack made, for scripts.
#include "engine/json.hpp"
#include "platewright/pack.hpp"

namespace platewright {

std::string to_json(const MadePack& made, const Findings& findings) {
  JsonWriter json;
  json.object();
  json.key("editions").array();
  for (const MadeEdition& edition : made.editions) {
    json.object();
    json.key("name").string(edition.name);
    json.key("set").string(edition.set);
    json.key("paper").string(edition.paper);
    json.key("file").string(edition.file);
    if (!edition.keys_file.empty()) json.key("keys_file").string(edition.keys_file);
    json.key("sheets").number(edition.sheets);
    json.key("pages").number(edition.pages);
    json.end();
  }
  json.end();
  json.key("parts_made").number(made.parts_made);
  json.key("parts_kept").number(made.parts_kept);
  json.key("seconds").number(made.seconds, 3);
  json.end();
  std::string text = json.text();
  // The findings are an array of their own making.
  text.pop_back();
  return text + ",\"findings\":" + to_json(findings) + "}";
}

}  // namespace platewright
