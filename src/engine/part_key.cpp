#include "engine/part_key.hpp"

#include <elf.h>
#include <link.h>

#include <cstring>

#include "base/number.hpp"
#include "emit/emit.hpp"
#include "engine/fields.hpp"
#include "read/read.hpp"
#include "text/text.hpp"

namespace platewright {
namespace {

struct Search {
  const void* inside;     // an address of the object looked for
  std::string build_id;   // raw bytes
};

// The GNU build id of the object that holds `inside`: the linker's digest of its
// code and data, so that another build never takes this one's work for its own.
int look_at(dl_phdr_info* info, std::size_t, void* data) {
  auto* search = static_cast<Search*>(data);
  const auto wanted = reinterpret_cast<std::uintptr_t>(search->inside);
  bool holds = false;
  for (int i = 0; i < info->dlpi_phnum; ++i) {
    const ElfW(Phdr)& part = info->dlpi_phdr[i];
    const std::uintptr_t start = info->dlpi_addr + part.p_vaddr;
    holds = holds || (part.p_type == PT_LOAD && wanted >= start && wanted < start + part.p_memsz);
  }
  if (!holds) return 0;
  for (int i = 0; i < info->dlpi_phnum; ++i) {
    const ElfW(Phdr)& part = info->dlpi_phdr[i];
    if (part.p_type != PT_NOTE) continue;
    const char* at = reinterpret_cast<const char*>(info->dlpi_addr + part.p_vaddr);
    const char* end = at + part.p_memsz;
    while (at + sizeof(ElfW(Nhdr)) <= end) {
      ElfW(Nhdr) note;
      std::memcpy(&note, at, sizeof note);
      const char* name = at + sizeof note;
      const char* content = name + ((note.n_namesz + 3U) & ~3U);
      if (note.n_type == NT_GNU_BUILD_ID && note.n_namesz == 4 && std::memcmp(name, "GNU", 4) == 0)
        search->build_id.assign(content, note.n_descsz);
      at = content + ((note.n_descsz + 3U) & ~3U);
    }
  }
  return 1;
}

std::string paper_text(const Paper& paper) {
  return format_number(paper.width.mm(), 6) + 'x' + format_number(paper.height.mm(), 6);
}

// What a set says: its readers, the words of its language, its terms.
void add_set(KeyWriter& key, const PackPlan& plan, const PackTable& table, const LabelSet& set) {
  const Terms& terms = table.terms;
  key.add(plan.manifest().figures[table.figure].title, set)
      .add(set.name)
      .add(set.language)
      .add(terms.title, set)
      .add(terms.note, set);
  key.add(std::to_string(set.youngest)).add(std::to_string(set.oldest));
  for (const auto& [name, text] : plan.words_of(set).by_key) key.add(name).add(text);
  for (const Term& term : terms.terms) {
    const auto cell = term.cells.find(set.name);
    if (cell == term.cells.end()) continue;
    key.add(term.anchor).add(cell->second.text);
    for (const std::string& other : cell->second.alternatives) key.add(other);
    key.add("|").add(term.clue, set).add(term.group, set).add(term.pronunciation, set);
    key.add(std::to_string(static_cast<int>(term.side)));
    key.add(std::to_string(static_cast<int>(term.inside)));
  }
}

}  // namespace

KeyWriter& KeyWriter::add(std::string_view field) {
  put(fields_, field);
  return *this;
}

KeyWriter& KeyWriter::add(const TextBySet& text, const LabelSet& set) {
  return add(text.text_for(set));
}

std::string KeyWriter::digest() const { return read::sha256(fields_); }

std::string program_identity() {
  static const std::string identity = [] {
    Search search{reinterpret_cast<const void*>(&program_identity), {}};
    ::dl_iterate_phdr(look_at, &search);
    return std::string(PW_VERSION) + ' ' + read::sha256(search.build_id) + ' ' +
           emit::library_versions();
  }();
  return identity;
}

std::string own_key(const PackPlan& plan, const PackPart& part, const Environment& environment) {
  const PackTable& table = plan.tables[part.table];
  const LabelSet& set = part.set;
  const SheetRequest& request = part.request;
  const Style& style = plan.styles.at(request.style);
  KeyWriter key;
  key.add("platewright part 1").add(program_identity()).add(plan.faces);
  key.add(table.digest);
  key.add(table.terms.credit).add(table.terms.licence).add(set.name);
  add_set(key, plan, table, set);
  for (const AddedAnchor& anchor : table.terms.added) {
    key.add(anchor.name).add(anchor.region);
    for (const FigurePoint& p : anchor.at)
      key.add(format_number(p.x, 9)).add(format_number(p.y, 9));
  }
  for (const std::string& anchor : table.terms.route) key.add("route").add(anchor);
  key.add(read::style_text(style));
  key.add(plan.letters.at(set.language));
  if (auto paper = find_paper(request.paper); paper.ok()) key.add(paper_text(*paper)).add(paper->name);
  key.add(request.word_bank ? "bank" : "");
  key.add(std::to_string(request.seed)).add(request.one_layout ? "one layout" : "");
  key.add(std::to_string(static_cast<int>(request.effort)));
  for (const PackLook& look : part.looks) {
    key.add("look");
    for (const SheetKind kind : look.kinds) key.add(name_of(kind));
    if (look.version == nullptr) continue;
    const FigureVersion& version = *look.version;
    key.add(version.name).add(version.title, set).add(version.ink_saving ? "outlines" : "");
    for (const NamedAt& name : version.show) key.add("show").add(name.name);
    for (const NamedAt& name : version.hide) key.add("hide").add(name.name);
    for (const auto& [name, colour] : version.tints) key.add(name.name).add(to_hex(colour));
  }
  key.add(environment.stroke_font);
  return key.digest();
}

std::string part_key(const PackPlan& plan, const PackPart& part, const Environment& environment) {
  const std::string own = own_key(plan, part, environment);
  if (!part.request.one_layout) return own;
  // A word of any set may move the leaders of all.
  const PackTable& table = plan.tables[part.table];
  KeyWriter key;
  key.add("platewright part of one layout 1").add(own);
  for (const LabelSet& other : table.terms.sets)
    if (other.name != part.set.name) add_set(key.add("sibling"), plan, table, other);
  return key.digest();
}

}  // namespace platewright
