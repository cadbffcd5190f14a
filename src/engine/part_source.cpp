#include "engine/part_source.hpp"

#include "base/quote.hpp"
#include "engine/composing.hpp"
#include "engine/figure_store.hpp"
#include "engine/part_key.hpp"

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

std::string PartSource::kept_key(const PackPart& part) const {
  if (!part.request.one_layout) return part.key;
  return store_.find(part.key).value_or("");
}

SourcedPart PartSource::part(const PackPart& part, const text::Typesetter& typesetter,
                             bool kept_only) {
  SourcedPart out;
  const auto found = [&] {
    out.record = out.key.empty() ? std::nullopt : kept(out.key, part);
    if (out.record) out.findings = out.record->warnings;
    return out.record.has_value();
  };
  out.key = kept_key(part);
  if (found()) return out;
  if (kept_only) {
    out.findings = {error("part-missing", {plan_.manifest().file, 0, 0},
                          "part " + in_quotes(part.id) + " is not made yet",
                          "run the commands of pack --list first, with the same --cache")};
    return out;
  }
  const Keeping keeping{store_, layouts_, plan_.tables[part.table].digest};
  const text::StrokeFont* strokes = strokes_ ? &*strokes_ : nullptr;
  Plans plans;
  if (part.request.one_layout) {
    auto family = families_.plans(part, typesetter, strokes, keeping);
    if (!family.ok()) {
      out.findings = family.findings();
      out.made = true;
      return out;
    }
    plans = std::move(*family);
    out.key = placed_key(own_key(plan_, part, environment_), plans);
    store_.keep(part.key, out.key);
    if (found()) return out;
  }
  out.made = true;
  auto made = make_part(plan_, part, environment_, typesetter, strokes, &keeping, std::move(plans));
  out.findings = made.findings();
  if (!made.ok()) return out;
  PartRecord record = *made;
  retell(record.warnings, part.request.figure, anywhere);
  store_.keep(out.key, to_bytes(record));
  out.record = std::move(*made);
  return out;
}

std::string PartSource::cover_digest() const {
  const PackTable* table = plan_.cover_table();
  return table == nullptr ? "" : table->digest;
}

std::shared_ptr<const Figure> PartSource::cover() {
  const std::lock_guard lock(cover_guard_);
  const PackTable* table = plan_.cover_table();
  if (cover_ || table == nullptr) return cover_;
  auto figure = kept_figure(store_, table->digest, table->figure_path, table->terms.added);
  if (!figure.ok()) return nullptr;
  return cover_ = std::make_shared<const Figure>(std::move(*figure));
}

}  // namespace platewright
