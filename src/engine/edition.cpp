#include "engine/edition.hpp"

#include <algorithm>

#include "base/quote.hpp"
#include "compose/pack.hpp"
#include "emit/bind.hpp"
#include "engine/figure_file.hpp"
#include "engine/load.hpp"
#include "engine/part_key.hpp"
#include "engine/thick_art.hpp"
#include "read/read.hpp"

namespace platewright {
namespace {

// Something that the book holds, and what the contents say of it.
struct Leaf {
  std::string title;
  int level = 1;                              // as compose::ContentsEntry
  bool listed = true;
  int section = -1;                           // contents page of this section, filled in later
  bool both_sides = false;                    // fronts and backs: must begin a sheet of paper
  bool filler = false;                        // an empty page before such a one
  std::vector<compose::LinkedPage> own = {};  // pages of its own, or
  int part = -1;                              // pages of a part:
  std::size_t first = 0, count = 0;
  std::size_t page = 0;                       // where it begins, once numbered
  std::size_t pages() const { return part < 0 ? own.size() : count; }
};

class Book {
 public:
  Book(const EditionInput& input, const Environment& environment)
      : input_(input), environment_(environment), plan_(*input.plan), edition_(*input.edition),
        style_(plan_.style_of(edition_)), words_(plan_.words_of(edition_.set)) {
    const Manifest& m = plan_.manifest();
    pack_.style = &style_;
    pack_.words = &words_;
    pack_.typesetter = input.typesetter;
    pack_.paper = edition_.paper;
    pack_.matter.title = text(m.title);
    if (pack_.matter.title.empty()) pack_.matter.title = m.name;
    pack_.matter.compiler = text(m.credit);
    pack_.matter.licence = text(m.licence);
    pack_.matter.language = edition_.set.language;
    pack_.matter.direction = is_right_to_left(edition_.set.language)
                                 ? text::Direction::right_to_left
                                 : text::Direction::left_to_right;
    pack_.matter.youngest = edition_.set.youngest;
    pack_.matter.oldest = edition_.set.oldest;
  }

  Result<BoundEdition> bound() {
    BoundEdition out;
    for (const PartRecord* part : input_.parts) out.sheets += static_cast<int>(part->sheets.size());
    gather();
    const bool apart = plan_.manifest().keys == KeyPlace::file && !keys_.empty();
    std::vector<Leaf> book;
    book.push_back(cover());
    book.push_back({words_.at("contents"), 0, false});
    const std::size_t contents = 1;
    book.insert(book.end(), leaves_.begin(), leaves_.end());
    if (!apart && !keys_.empty()) {
      book.push_back({words_.at("answer-keys"), 0});
      book.insert(book.end(), keys_.begin(), keys_.end());
    }
    auto first = finished(book, contents, apart ? words_.at("keys-apart") : "", "",
                          pack_.matter.title, out.pages);
    if (!first.ok()) return first.findings();
    out.book = std::move(*first);
    if (!apart) return out;
    std::vector<Leaf> keys{{words_.at("answer-keys"), 0, false}};
    keys.insert(keys.end(), keys_.begin(), keys_.end());
    auto second = finished(keys, 0, "", "K",
                           pack_.matter.title + " – " + words_.at("answer-keys"), out.pages);
    if (!second.ok()) return second.findings();
    out.keys = std::move(*second);
    return out;
  }

 private:
  std::string text(const TextBySet& by) const { return std::string(by.text_for(edition_.set)); }

  std::string readers() const {
    const LabelSet& set = edition_.set;
    if (set.youngest == set.oldest)
      return fill(words_.at("set-age"), "age", std::to_string(set.youngest));
    return fill(fill(words_.at("set-ages"), "from", std::to_string(set.youngest)), "to",
                std::to_string(set.oldest));
  }

  Leaf cover() const {
    compose::Cover cover;
    cover.title = pack_.matter.title;
    cover.subtitle = text(plan_.manifest().subtitle);
    cover.readers = readers();
    cover.figure = input_.cover;
    if (const PackTable* table = plan_.cover_table()) {
      cover.credit = table->terms.credit;
      cover.licence = table->terms.licence;
    }
    Leaf leaf{pack_.matter.title, 0, false};
    leaf.own.push_back(compose::pack_cover(pack_, cover));
    return leaf;
  }

  void add_page(const NamedAt& name) {
    const std::string path = page_path(plan_, name.name, edition_.set);
    const auto found = input_.texts->find(path);
    if (found == input_.texts->end()) return;
    Leaf leaf{found->second.title, 1};
    leaf.own = compose::text_pages(pack_, found->second);
    leaves_.push_back(std::move(leaf));
  }

  // A figure with one sheet is one line of the contents; with more, a line each below it.
  void add_sheets(std::vector<Leaf>& to, const std::string& title, std::vector<Leaf> sheets) const {
    if (sheets.size() == 1) {
      sheets.front().title = title + " – " + sheets.front().title;
      sheets.front().level = 1;
    } else if (sheets.size() > 1) {
      to.push_back({title, 1});
    }
    for (Leaf& sheet : sheets) to.push_back(std::move(sheet));
  }

  void add_figure(std::size_t figure) {
    for (std::size_t p = 0; p < edition_.parts.size(); ++p) {
      const PackPart& part = plan_.parts[edition_.parts[p]];
      if (plan_.tables[part.table].figure != figure) continue;
      const PartRecord& record = *input_.parts[p];
      std::vector<Leaf> keys;
      std::size_t at = 0;
      for (std::size_t i = 0; i < record.sheets.size();) {
        // Sheets of one version stand together.
        const std::string& version = record.sheets[i].version;
        std::vector<Leaf> sheets;
        for (; i < record.sheets.size() && record.sheets[i].version == version; ++i) {
          const PartSheet& sheet = record.sheets[i];
          const auto add = [&](std::vector<Leaf>& list, int count) {
            if (count == 0) return;
            Leaf leaf{sheet.label, 2};
            leaf.both_sides = &list != &keys && has_backs(*find_sheet_kind(sheet.kind));
            leaf.part = static_cast<int>(p);
            leaf.first = at;
            leaf.count = static_cast<std::size_t>(count);
            at += leaf.count;
            list.push_back(std::move(leaf));
          };
          add(sheet.is_key ? keys : sheets, sheet.pages);
          add(keys, sheet.keys);
        }
        add_sheets(leaves_, version.empty() ? record.title : record.title + " – " + version,
                   std::move(sheets));
      }
      // A figure whose only key is the key needs no second line for it.
      if (keys.size() == 1) {
        keys.front().title = record.title;
        keys.front().level = 1;
        keys_.push_back(std::move(keys.front()));
      } else {
        add_sheets(keys_, record.title, std::move(keys));
      }
    }
  }

  void gather() {
    const Manifest& m = plan_.manifest();
    if (m.sections.empty()) {
      for (std::size_t f = 0; f < m.figures.size(); ++f) add_figure(f);
      return;
    }
    for (std::size_t s = 0; s < m.sections.size(); ++s) {
      const PackSection& section = m.sections[s];
      const std::size_t begin = leaves_.size();
      if (const std::string title = text(section.title); !title.empty())
        leaves_.push_back({title, 0});
      if (section.contents) {
        Leaf leaf{text(section.title), 0, false};
        leaf.section = static_cast<int>(s);
        leaves_.push_back(std::move(leaf));
      }
      const std::size_t bare = leaves_.size();
      for (const NamedAt& page : section.before) add_page(page);
      for (const NamedAt& name : section.figures)
        for (std::size_t f = 0; f < m.figures.size(); ++f)
          if (m.figures[f].name == name.name) add_figure(f);
      for (const NamedAt& page : section.after) add_page(page);
      // Nothing of it in this edition: no heading either.
      if (leaves_.size() == bare) leaves_.resize(begin);
    }
  }

  // Entries of the contents; those of one section where `section` is not negative.
  std::vector<compose::ContentsEntry> entries(const std::vector<Leaf>& leaves, int section,
                                              const std::string& prefix, bool numbered) const {
    std::vector<compose::ContentsEntry> out;
    std::size_t from = 0, to = leaves.size();
    if (section >= 0) {
      while (from < leaves.size() && leaves[from].section != section) ++from;
      to = ++from;
      while (to < leaves.size() && leaves[to].level > 0) ++to;
    }
    for (std::size_t i = from; i < to; ++i) {
      const Leaf& leaf = leaves[i];
      if (!leaf.listed) continue;
      // Headings of a section and of a figure's sheets have no page of their own.
      const bool heading = leaf.pages() == 0;
      out.push_back({leaf.title, leaf.level,
                     heading || !numbered ? "" : prefix + std::to_string(leaf.page + 1),
                     static_cast<int>(leaf.page)});
    }
    return out;
  }

  // Fills in every contents page; their number of pages is the same in all rounds.
  void set_contents(std::vector<Leaf>& leaves, std::size_t contents, const std::string& note,
                    const std::string& prefix, bool numbered) const {
    leaves[contents].own = compose::contents_pages(
        pack_, leaves[contents].title, entries(leaves, -1, prefix, numbered), note);
    for (Leaf& leaf : leaves)
      if (leaf.section >= 0)
        leaf.own = compose::contents_pages(pack_, leaf.title,
                                           entries(leaves, leaf.section, prefix, numbered), "");
    std::size_t page = 0;
    for (Leaf& leaf : leaves) {
      leaf.page = page;
      page += leaf.pages();
    }
  }

  // What has backs begins on a page with an odd number: printed on both sides, a book has
  // the fronts of a sheet of paper there.
  void begin_on_fronts(std::vector<Leaf>& leaves) const {
    std::size_t page = 0;
    for (std::size_t i = 0; i < leaves.size(); ++i) {
      if (leaves[i].both_sides && page % 2 == 1) {
        std::size_t at = i;  // headings stay with what they are of
        while (at > 0 && leaves[at - 1].pages() == 0) --at;
        Leaf empty{pack_.matter.title, 2, false};
        empty.filler = true;
        empty.own.push_back(compose::empty_page(pack_));
        leaves.insert(leaves.begin() + static_cast<std::ptrdiff_t>(at), std::move(empty));
        ++page;
        ++i;
      }
      page += leaves[i].pages();
    }
  }

  Result<std::string> finished(std::vector<Leaf> leaves, std::size_t contents,
                               const std::string& note, const std::string& prefix,
                               const std::string& title, int& page_count) const {
    set_contents(leaves, contents, note, prefix, false);
    begin_on_fronts(leaves);
    set_contents(leaves, contents, note, prefix, false);
    set_contents(leaves, contents, note, prefix, true);

    emit::Binding binding;
    binding.own.title = title;
    binding.own.language = edition_.set.language;
    binding.own.author = pack_.matter.compiler;
    binding.own.direction = pack_.matter.direction;
    for (const PartRecord* part : input_.parts) binding.parts.push_back(part->pdf);

    std::vector<PartPage> sizes;
    for (Leaf& leaf : leaves) {
      for (std::size_t i = 0; i < leaf.pages(); ++i) {
        emit::BoundPage page;
        page.part = leaf.part;
        page.label = prefix + std::to_string(binding.pages.size() + 1);
        if (leaf.part >= 0) {
          page.page = leaf.first + i;
          sizes.push_back(input_.parts[static_cast<std::size_t>(leaf.part)]->pages[page.page]);
        } else {
          compose::LinkedPage& linked = leaf.own[i];
          page.page = binding.own.pages.size();
          sizes.push_back({linked.page.width, linked.page.height,
                           linked.page.bleed + linked.page.slug});
          for (const compose::PageLink& link : linked.links) {
            emit::BoundLink out;
            out.page = binding.pages.size();
            out.box = link.box;
            if (link.target >= 0) out.to = static_cast<std::size_t>(link.target);
            out.address = link.address;
            out.says = link.says;
            binding.links.push_back(std::move(out));
          }
          linked.page.label = page.label;
          binding.own.pages.push_back(std::move(linked.page));
        }
        binding.pages.push_back(std::move(page));
      }
    }
    const std::string running = title + " · " + readers();
    const bool has_cover = leaves.front().level == 0 && contents > 0;
    for (std::size_t i = has_cover ? 1 : 0; i < binding.pages.size(); ++i) {
      binding.pages[i].running = static_cast<int>(binding.own.pages.size());
      binding.own.pages.push_back(compose::running_page(
          pack_, {sizes[i].width, sizes[i].height, sizes[i].around, running,
                  binding.pages[i].label}));
    }

    // Bookmarks: what the contents list, and cover and contents before it.
    int lowest = 2;
    for (const Leaf& leaf : leaves)
      if (leaf.listed) lowest = std::min(lowest, leaf.level);
    for (const Leaf& leaf : leaves) {
      if (leaf.section >= 0 || leaf.filler || leaf.page >= binding.pages.size()) continue;
      binding.bookmarks.push_back(
          {leaf.title, leaf.listed ? std::max(0, leaf.level - lowest) : 0, leaf.page});
    }
    page_count += static_cast<int>(binding.pages.size());

    emit::EmitContext context;
    context.typesetter = input_.typesetter;
    context.art.figure = input_.cover;
    context.keep_art = input_.keep_art;
    context.source_date = environment_.source_date;
    if (style_.outline_art && input_.cover != nullptr && has_cover)
      for (const compose::Item& item : binding.own.pages.front().items)
        if (const auto* figure = std::get_if<compose::FigureItem>(&item)) {
          const double width = figure->outline_width / figure->transform.scale;
          auto outlines = outlines_of(*input_.cover, width, input_.cover->name);
          if (!outlines.ok()) return outlines.findings();
          context.art.outlines.emplace_back(width, std::move(*outlines));
        }
    thicken_lines(binding.own, style_.art_least_line, context.art);
    return emit::bound_pdf(binding, context);
  }

  const EditionInput& input_;
  const Environment& environment_;
  const PackPlan& plan_;
  const PackEdition& edition_;
  const Style& style_;
  const Words& words_;
  compose::PackInput pack_;
  std::vector<Leaf> leaves_, keys_;
};

}  // namespace

Result<BoundEdition> bind_edition(const EditionInput& input, const Environment& environment) {
  return Book(input, environment).bound();
}

}  // namespace platewright
