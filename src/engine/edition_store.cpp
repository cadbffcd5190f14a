#include "engine/edition_store.hpp"

#include "engine/fields.hpp"
#include "engine/part_key.hpp"
#include "read/read.hpp"

namespace platewright {

std::string edition_key(const EditionInput& input, const std::vector<std::string>& part_keys,
                        const std::string& cover_digest, const Environment& environment) {
  const PackPlan& plan = *input.plan;
  const PackEdition& edition = *input.edition;
  KeyWriter key;
  key.add("platewright edition 2").add(program_identity()).add(plan.faces);
  key.add(plan.manifest_digest).add(cover_digest).add(edition.name);
  if (const PackTable* cover = plan.cover_table())
    key.add(cover->terms.credit).add(cover->terms.licence);
  key.add(edition.set.language);
  key.add(std::to_string(edition.set.youngest)).add(std::to_string(edition.set.oldest));
  key.add(read::style_text(plan.style_of(edition)));
  for (const auto& [name, text] : plan.words_of(edition.set).by_key) key.add(name).add(text);
  for (std::size_t i = 0; i < edition.parts.size(); ++i)
    key.add(plan.parts[edition.parts[i]].id).add(part_keys[i]);
  for (const PackPage& page : plan.manifest().pages) {
    const auto found = input.texts->find(page_path(plan, page.name, edition.set));
    if (found == input.texts->end()) continue;
    key.add(page.name).add(found->second.title);
    for (const PageBlock& block : found->second.blocks) {
      key.add(std::to_string(static_cast<int>(block.kind)))
          .add(block.text)
          .add(std::to_string(block.number))
          .add(std::to_string(block.lines))
          .add(block.link);
      for (const Emphasis& e : block.emphasis)
        key.add("emphasis")
            .add(std::to_string(e.from))
            .add(std::to_string(e.to))
            .add(e.bold ? "bold" : "")
            .add(e.italic ? "italic" : "");
    }
  }
  key.add(std::to_string(environment.source_date));
  return key.digest();
}

std::optional<BoundEdition> kept_edition(const PartStore& store, const std::string& key) {
  const auto kept = store.find(key);
  if (!kept) return std::nullopt;
  Fields fields(*kept);
  BoundEdition bound;
  bound.sheets = fields.integer();
  bound.pages = fields.integer();
  bound.book = fields.text();
  bound.keys = fields.text();
  if (!fields.whole()) return std::nullopt;
  return bound;
}

void keep_edition(PartStore& store, const std::string& key, const BoundEdition& bound) {
  std::string bytes;
  put(bytes, bound.sheets);
  put(bytes, bound.pages);
  put(bytes, bound.book);
  put(bytes, bound.keys);
  store.keep(key, bytes);
}

}  // namespace platewright
