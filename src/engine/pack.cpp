// make_pack: plan, make or fetch the parts, bind the editions, write them.
#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <mutex>
#include <thread>

#include "base/nearest.hpp"
#include "base/number.hpp"
#include "base/quote.hpp"
#include "engine/composing.hpp"
#include "engine/edition.hpp"
#include "engine/fields.hpp"
#include "engine/figure_file.hpp"
#include "engine/json.hpp"
#include "engine/part.hpp"
#include "engine/part_key.hpp"
#include "engine/part_store.hpp"
#include "engine/write.hpp"
#include "read/read.hpp"

namespace platewright {
namespace {

namespace fs = std::filesystem;

// Runs `work(index)` for 0..count on so many threads, each with a typesetter of its own.
template <class Work>
void spread(std::size_t count, int jobs, const Work& work) {
  std::atomic<std::size_t> next{0};
  const auto run = [&] {
    const text::Typesetter typesetter;
    for (std::size_t i = next++; i < count; i = next++) work(i, typesetter);
  };
  std::vector<std::thread> others;
  const auto threads = std::min<std::size_t>(static_cast<std::size_t>(std::max(1, jobs)), count);
  for (std::size_t i = 1; i < threads; ++i) others.emplace_back(run);
  run();
  for (std::thread& thread : others) thread.join();
}

int jobs_of(const PackRequest& request) {
  if (request.jobs > 0) return request.jobs;
  return std::max(1, static_cast<int>(std::thread::hardware_concurrency()));
}

std::string shell_word(const std::string& text) {
  const bool plain = !text.empty() && std::all_of(text.begin(), text.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
           std::string_view("-_./:,=+@").find(c) != std::string_view::npos;
  });
  if (plain) return text;
  std::string out = "'";
  for (const char c : text) out += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return out + "'";
}

Findings unwritable(const std::string& folder) {
  std::error_code ec;
  fs::create_directories(folder, ec);
  if (!ec && ::access(folder.c_str(), W_OK | X_OK) == 0) return {};
  const std::string reason = ec ? ec.message() : std::generic_category().message(errno);
  return {error("write-failed", {folder, 0, 0}, "cannot be written: " + reason,
                "choose a place that can be written")};
}

class Build {
 public:
  Build(const PackRequest& request, const Environment& environment, const WatchPack& watch,
        PackPlan plan)
      : request_(request), environment_(environment), watch_(watch), plan_(std::move(plan)),
        store_(request.cache.empty() ? usual_cache() : request.cache),
        strokes_(stroke_font(environment)) {}

  Result<MadePack> all() {
    if (Findings faults = choose(); !faults.empty()) return faults;
    if (Findings faults = unwritable(request_.out); !faults.empty()) return faults;
    auto texts = read_page_texts(plan_);
    add(texts.findings());
    if (!texts.ok()) return sorted(std::move(findings_));
    texts_ = std::move(*texts);

    std::vector<std::size_t> wanted;
    for (const PackEdition* edition : editions_)
      wanted.insert(wanted.end(), edition->parts.begin(), edition->parts.end());
    progress_.total = static_cast<int>(wanted.size());
    progress_.editions = static_cast<int>(editions_.size());
    tell();
    spread(wanted.size(), jobs_of(request_), [&](std::size_t i, const text::Typesetter& type) {
      obtain(plan_.parts[wanted[i]], type);
      const std::lock_guard lock(guard_);
      ++progress_.done;
      tell();
    });
    if (has_error(findings_)) return sorted(std::move(findings_));
    made_.editions.resize(editions_.size());
    spread(editions_.size(), jobs_of(request_), [&](std::size_t i, const text::Typesetter& type) {
      bind(*editions_[i], made_.editions[i], type);
      const std::lock_guard lock(guard_);
      ++progress_.editions_done;
      tell();
    });
    if (!request_.bind_only) store_.tidy();
    return finished();
  }

  Result<MadePack> one_part() {
    const auto part = std::find_if(plan_.parts.begin(), plan_.parts.end(),
                                   [&](const PackPart& p) { return p.id == request_.part; });
    if (part == plan_.parts.end()) {
      std::vector<std::string_view> known;
      for (const PackPart& p : plan_.parts) known.push_back(p.id);
      return error("part-unknown", {"--part", 0, 0},
                   "the pack has no part " + in_quotes(request_.part),
                   did_you_mean(request_.part, known, "see: platewright pack MANIFEST --list"));
    }
    const text::Typesetter typesetter;
    obtain(*part, typesetter);
    // A part that stays in memory was made for nothing.
    if (const auto fault = store_.fault()) add({*fault});
    return finished();
  }

 private:
  void add(const Findings& found) {
    findings_.insert(findings_.end(), found.begin(), found.end());
  }
  void tell() {
    if (watch_) watch_(progress_);
  }

  Result<MadePack> finished() {
    if (const auto fault = store_.fault(); fault && request_.part.empty()) {
      Finding told = *fault;
      told.severity = Severity::warning;
      told.code = "cache-unwritable";
      told.advice = "name another folder with --cache, or all is made anew the next time";
      findings_.push_back(std::move(told));
    }
    Findings all = plan_.warnings;
    all.insert(all.end(), findings_.begin(), findings_.end());
    all = sorted(std::move(all));
    if (has_error(all)) return all;
    return {std::move(made_), std::move(all)};
  }

  // The editions asked for.
  Findings choose() {
    Findings faults;
    if (request_.out.empty())
      faults.push_back(error("out-missing", {"--out", 0, 0}, "no folder is named",
                             "give --out with a folder"));
    for (const PackEdition& edition : plan_.editions)
      if (request_.only.empty()) editions_.push_back(&edition);
    std::vector<std::string_view> known;
    for (const PackEdition& edition : plan_.editions) known.push_back(edition.name);
    for (const std::string& name : request_.only) {
      const auto found = std::find_if(plan_.editions.begin(), plan_.editions.end(),
                                      [&](const PackEdition& e) { return e.name == name; });
      if (found == plan_.editions.end())
        faults.push_back(error("edition-unknown", {"--only", 0, 0},
                               "the pack has no edition " + in_quotes(name),
                               did_you_mean(name, known, "known editions: " + listed(known))));
      else if (std::find(editions_.begin(), editions_.end(), &*found) == editions_.end())
        editions_.push_back(&*found);
    }
    if (faults.empty() && editions_.empty())
      faults.push_back(error("edition-empty", {plan_.manifest().file, 0, 0},
                             "no edition of this pack has sheets", "give its figures label sets"));
    return faults;
  }

  // A part from the store, else made and kept there.
  std::optional<PartRecord> obtain(const PackPart& part, const text::Typesetter& typesetter) {
    const std::string here = part.request.figure;
    constexpr const char* anywhere = "\x01";  // the figure, wherever it lies
    if (const auto kept = store_.find(part.key))
      if (auto record = record_from(*kept)) {
        for (Finding& f : record->warnings)
          if (f.at.file == anywhere) f.at.file = here;
        const std::lock_guard lock(guard_);
        add(record->warnings);
        ++made_.parts_kept;
        return record;
      }
    if (request_.bind_only) {
      const std::lock_guard lock(guard_);
      findings_.push_back(error("part-missing", {plan_.manifest().file, 0, 0},
                                "part " + in_quotes(part.id) + " is not made yet",
                                "run the commands of pack --list first, with the same --cache"));
      return std::nullopt;
    }
    auto made = make_part(plan_, part, environment_, typesetter, strokes_ ? &*strokes_ : nullptr);
    if (made.ok()) {
      PartRecord kept = *made;
      for (Finding& f : kept.warnings)
        if (f.at.file == here) f.at.file = anywhere;
      store_.keep(part.key, to_bytes(kept));
    }
    const std::lock_guard lock(guard_);
    add(made.findings());
    ++made_.parts_made;
    if (!made.ok()) return std::nullopt;
    return std::move(*made);
  }

  const PackTable* cover_table() const {
    for (const PackTable& table : plan_.tables)
      if (plan_.manifest().cover.empty() ||
          plan_.manifest().figures[table.figure].name == plan_.manifest().cover)
        return &table;
    return nullptr;
  }

  // The figure of the cover, read once for all editions and kept: its document
  // and its painted box are all that a cover needs.
  std::shared_ptr<const Figure> cover() {
    const std::lock_guard lock(cover_guard_);
    const PackTable* table = cover_table();
    if (cover_ || table == nullptr) return cover_;
    const std::string key =
        KeyWriter().add("platewright cover 1").add(program_identity()).add(table->digest).digest();
    if (const auto kept = store_.find(key)) {
      Fields fields(*kept);
      auto figure = std::make_shared<Figure>();
      figure->name = fields.text();
      for (FigureBox* box : {&figure->view_box, &figure->painted})
        for (double* value : {&box->x, &box->y, &box->w, &box->h}) *value = fields.number();
      figure->svg = fields.text();
      if (fields.whole()) return cover_ = figure;
    }
    auto figure = figure_file(table->figure_path, table->terms.added);
    if (!figure.ok()) return nullptr;
    std::string bytes;
    put(bytes, figure->name);
    for (FigureBox* box : {&figure->view_box, &figure->painted})
      for (double* value : {&box->x, &box->y, &box->w, &box->h}) {
        put(bytes, *value);
        // As it will be read back: the same bytes from cold and warm.
        *value = *parse_number(format_number(*value, 6));
      }
    put(bytes, figure->svg);
    store_.keep(key, bytes);
    return cover_ = std::make_shared<const Figure>(std::move(*figure));
  }

  // Leaves a file that already holds these bytes alone.
  void add_changed(std::vector<OutputFile>& files, const std::string& path, std::string bytes) const {
    const auto there = read::file_bytes(path, bytes.size());
    if (!there.ok() || *there != bytes) files.push_back({path, std::move(bytes)});
  }

  void bind(const PackEdition& edition, MadeEdition& made, const text::Typesetter& typesetter) {
    EditionInput input;
    input.plan = &plan_;
    input.edition = &edition;
    input.texts = &texts_;
    input.typesetter = &typesetter;
    const std::string key = edition_key(input, cover_table() ? cover_table()->digest : "", environment_);
    std::optional<BoundEdition> bound = kept_edition(key);
    if (!bound) {
      std::vector<PartRecord> records;
      records.reserve(edition.parts.size());
      for (const std::size_t part : edition.parts) {
        auto record = refetched(plan_.parts[part], typesetter);
        if (!record) return;
        records.push_back(std::move(*record));
      }
      for (const PartRecord& record : records) input.parts.push_back(&record);
      const std::shared_ptr<const Figure> art = cover();
      input.cover = art.get();
      auto fresh = bind_edition(input, environment_);
      if (!fresh.ok()) {
        const std::lock_guard lock(guard_);
        add(fresh.findings());
        return;
      }
      bound = std::move(*fresh);
      keep_edition(key, *bound);
    }
    const std::string stem =
        (fs::path(request_.out) / (plan_.manifest().name + '-' + edition.name)).string();
    made.name = edition.name;
    made.set = edition.set.name;
    made.paper = edition.paper.name;
    made.file = stem + ".pdf";
    made.sheets = bound->sheets;
    made.pages = bound->pages;
    std::vector<OutputFile> files;
    if (!bound->keys.empty()) {
      made.keys_file = stem + "-keys.pdf";
      add_changed(files, made.keys_file, std::move(bound->keys));
    }
    add_changed(files, made.file, std::move(bound->book));
    const Findings faults = write_all(files);
    if (faults.empty()) return;
    const std::lock_guard lock(guard_);
    add(faults);
  }

  // What obtain() made before; made again where the store lost it meanwhile.
  std::optional<PartRecord> refetched(const PackPart& part, const text::Typesetter& typesetter) {
    if (const auto kept = store_.find(part.key))
      if (auto record = record_from(*kept)) return record;
    return obtain(part, typesetter);
  }

  std::optional<BoundEdition> kept_edition(const std::string& key) const {
    const auto kept = store_.find(key);
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

  void keep_edition(const std::string& key, const BoundEdition& bound) {
    std::string bytes;
    put(bytes, bound.sheets);
    put(bytes, bound.pages);
    put(bytes, bound.book);
    put(bytes, bound.keys);
    store_.keep(key, bytes);
  }

  const PackRequest& request_;
  const Environment& environment_;
  const WatchPack& watch_;
  PackPlan plan_;
  PartStore store_;
  std::optional<text::StrokeFont> strokes_;
  PageTexts texts_;
  std::vector<const PackEdition*> editions_;
  std::mutex guard_;        // of what follows
  Findings findings_;
  MadePack made_;
  PackProgress progress_;
  std::mutex cover_guard_;
  std::shared_ptr<const Figure> cover_;
};

}  // namespace

std::string usual_cache() {
  if (const char* folder = std::getenv("XDG_CACHE_HOME"); folder && *folder == '/')
    return (fs::path(folder) / "platewright").string();
  if (const char* home = std::getenv("HOME"); home && *home == '/')
    return (fs::path(home) / ".cache" / "platewright").string();
  return {};
}

Result<MadePack> make_pack(const PackRequest& request, const Environment& environment,
                           const WatchPack& watch) {
  const auto start = std::chrono::steady_clock::now();
  auto plan = plan_pack(request.manifest, environment);
  if (!plan.ok()) return plan.findings();
  Build build(request, environment, watch, std::move(*plan));
  auto made = request.part.empty() ? build.all() : build.one_part();
  if (made.ok())
    made->seconds =
        std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
  return made;
}

Result<std::vector<std::string>> pack_commands(const PackRequest& request,
                                               const Environment& environment) {
  auto plan = plan_pack(request.manifest, environment);
  if (!plan.ok()) return plan.findings();
  const std::string cache = request.cache.empty() ? usual_cache() : request.cache;
  if (cache.empty())
    return error("cache-missing", {"--cache", 0, 0}, "there is no folder for the parts",
                 "name one with --cache that all machines share");
  std::vector<std::string> commands;
  for (const PackEdition& edition : plan->editions) {
    const bool asked = request.only.empty() || std::find(request.only.begin(), request.only.end(),
                                                         edition.name) != request.only.end();
    if (!asked) continue;
    for (const std::size_t part : edition.parts)
      commands.push_back("platewright pack " + shell_word(request.manifest) + " --part " +
                         shell_word(plan->parts[part].id) + " --cache " + shell_word(cache) +
                         " --quiet");
  }
  return {std::move(commands), plan->warnings};
}

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
