#include "engine/part_source.hpp"

#include "base/quote.hpp"
#include "engine/composing.hpp"
#include "engine/figure_store.hpp"

namespace platewright {
namespace {

constexpr const char* anywhere = "\x01";  // the figure, wherever it lies

void retell(Findings& findings, const std::string& from, const std::string& to) {
  for (Finding& f : findings)
    if (f.at.file == from) f.at.file = to;
}

}  // namespace

PartSource::PartSource(const PackPlan& plan, const Environment& environment, PartStore& store)
    : plan_(plan), environment_(environment), store_(store), strokes_(stroke_font(environment)) {}

std::optional<PartRecord> PartSource::kept(const std::string& key, const PackPart& part) const {
  const auto bytes = store_.find(key);
  if (!bytes) return std::nullopt;
  auto record = record_from(*bytes);
  if (record) retell(record->warnings, anywhere, part.request.figure);
  return record;
}

SourcedPart PartSource::part(const PackPart& part, const text::Typesetter& typesetter,
                             bool kept_only) {
  SourcedPart out;
  out.key = part.key;
  out.record = kept(out.key, part);
  if (out.record) {
    out.findings = out.record->warnings;
    return out;
  }
  if (kept_only) {
    out.findings = {error("part-missing", {plan_.manifest().file, 0, 0},
                          "part " + in_quotes(part.id) + " is not made yet",
                          "run the commands of pack --list first, with the same --cache")};
    return out;
  }
  out.made = true;
  const Keeping keeping{store_, layouts_, plan_.tables[part.table].digest};
  auto made = make_part(plan_, part, environment_, typesetter, strokes_ ? &*strokes_ : nullptr,
                        &keeping);
  out.findings = made.findings();
  if (!made.ok()) return out;
  PartRecord record = *made;
  retell(record.warnings, part.request.figure, anywhere);
  store_.keep(out.key, to_bytes(record));
  out.record = std::move(*made);
  return out;
}

const PackTable* PartSource::cover_table() const {
  for (const PackTable& table : plan_.tables)
    if (plan_.manifest().cover.empty() ||
        plan_.manifest().figures[table.figure].name == plan_.manifest().cover)
      return &table;
  return nullptr;
}

std::string PartSource::cover_digest() const {
  const PackTable* table = cover_table();
  return table == nullptr ? "" : table->digest;
}

std::shared_ptr<const Figure> PartSource::cover() {
  const std::lock_guard lock(cover_guard_);
  const PackTable* table = cover_table();
  if (cover_ || table == nullptr) return cover_;
  auto figure = kept_figure(store_, table->digest, table->figure_path, table->terms.added);
  if (!figure.ok()) return nullptr;
  return cover_ = std::make_shared<const Figure>(std::move(*figure));
}

}  // namespace platewright
