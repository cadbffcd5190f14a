// make_pack: plan, make or fetch the parts, bind the editions, write them.
#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <filesystem>
#include <mutex>
#include <set>
#include <thread>

#include "base/nearest.hpp"
#include "base/quote.hpp"
#include "engine/edition.hpp"
#include "engine/edition_store.hpp"
#include "engine/figure_store.hpp"
#include "engine/outputs.hpp"
#include "engine/part_source.hpp"
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
        parts_(plan_, environment, store_), keys_(plan_.parts.size()) {}

  Result<MadePack> all() {
    if (Findings faults = choose(); !faults.empty()) return faults;
    if (Findings faults = astray(); !faults.empty()) return faults;
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
      obtain(wanted[i], type);
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
    obtain(static_cast<std::size_t>(part - plan_.parts.begin()), typesetter);
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

  std::string stem_of(const PackEdition& edition) const {
    return (fs::path(request_.out) / (plan_.manifest().name + '-' + edition.name)).string();
  }

  // Editions that would be written over what they are made from, or over each other.
  Findings astray() const {
    const Manifest& manifest = plan_.manifest();
    std::vector<std::string> outputs;
    for (const PackEdition* edition : editions_) {
      outputs.push_back(stem_of(*edition) + ".pdf");
      if (manifest.keys == KeyPlace::file) outputs.push_back(stem_of(*edition) + "-keys.pdf");
    }
    return misdirected(outputs, [&] { return sources(); });
  }

  // All files that the pack is made from.
  std::vector<InputFile> sources() const {
    const Manifest& manifest = plan_.manifest();
    std::vector<InputFile> inputs{{request_.manifest, "the manifest"}};
    std::set<std::string> known;
    for (const PackPart& part : plan_.parts)
      if (known.insert(part.request.figure + '\n' + part.request.terms + '\n' + part.request.style)
              .second)
        for (InputFile& input : inputs_of(part.request, environment_))
          inputs.push_back(std::move(input));
    for (const PackPage& page : manifest.pages) {
      inputs.push_back({page.file.everywhere, "a page of the pack"});
      for (const auto& [set, path] : page.file.by) inputs.push_back({path, "a page of the pack"});
    }
    return inputs;
  }

  std::optional<PartRecord> obtain(std::size_t index, const text::Typesetter& typesetter) {
    SourcedPart found = parts_.part(plan_.parts[index], typesetter, request_.bind_only);
    const std::lock_guard lock(guard_);
    add(found.findings);
    keys_[index] = std::move(found.key);
    if (found.made)
      ++made_.parts_made;
    else if (found.record)
      ++made_.parts_kept;
    return std::move(found.record);
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
    input.keep_art = kept_art(store_);
    std::vector<std::string> part_keys;
    for (const std::size_t part : edition.parts) part_keys.push_back(keys_[part]);
    const std::string key = edition_key(input, part_keys, parts_.cover_digest(), environment_);
    std::optional<BoundEdition> bound = kept_edition(store_, key);
    if (!bound) {
      std::vector<PartRecord> records;
      records.reserve(edition.parts.size());
      for (const std::size_t part : edition.parts) {
        // What obtain() made before; made again where the store lost it meanwhile.
        SourcedPart found = parts_.part(plan_.parts[part], typesetter, request_.bind_only);
        if (!found.record) {
          const std::lock_guard lock(guard_);
          add(found.findings);
          return;
        }
        records.push_back(std::move(*found.record));
      }
      for (const PartRecord& record : records) input.parts.push_back(&record);
      const std::shared_ptr<const Figure> art = parts_.cover();
      input.cover = art.get();
      auto fresh = bind_edition(input, environment_);
      if (!fresh.ok()) {
        const std::lock_guard lock(guard_);
        add(fresh.findings());
        return;
      }
      bound = std::move(*fresh);
      keep_edition(store_, key, *bound);
    }
    const std::string stem = stem_of(edition);
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
    // Where the kept work found no room either, it is in the way of what is asked for.
    if (store_.fault()) store_.take_back();
    const std::lock_guard lock(guard_);
    add(faults);
  }

  const PackRequest& request_;
  const Environment& environment_;
  const WatchPack& watch_;
  PackPlan plan_;
  PartStore store_;
  PartSource parts_;
  PageTexts texts_;
  std::vector<const PackEdition*> editions_;
  std::mutex guard_;        // of what follows
  std::vector<std::string> keys_;  // that the parts are kept by
  Findings findings_;
  MadePack made_;
  PackProgress progress_;
};

}  // namespace

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

}  // namespace platewright
