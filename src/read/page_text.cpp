// Pages of a pack that their writer set down as plain text.
#include <algorithm>
#include <string>

#include "base/number.hpp"
#include "base/quote.hpp"
#include "base/utf8.hpp"
#include "read/emphasis.hpp"
#include "read/encoding.hpp"
#include "read/read.hpp"
#include "read/reading.hpp"

namespace platewright::read {
namespace {

constexpr std::size_t most_page_bytes = 1u << 20;
// ISO/IEC 18004: a code of level M holds 2,331 bytes, but one that prints at a
// useful size holds far less.
constexpr std::size_t longest_address = 300;

struct Page {
  PageText text;
  Reading& reading;
  bool open = false;  // the last block may go on in the next line
};

bool is_address(std::string_view text) {
  if (!text.starts_with("https://") && !text.starts_with("http://")) return false;
  const std::string_view rest = text.substr(text.find("//") + 2);
  return !rest.empty() && std::all_of(text.begin(), text.end(), [](char c) {
    return static_cast<unsigned char>(c) > 0x20 && static_cast<unsigned char>(c) < 0x7f;
  });
}

// Takes "[words](address)" and "<address>" out of a block's text; each becomes a
// block of its own, below it.
std::vector<PageBlock> links_of(std::string& text, Place place, Reading& reading) {
  std::vector<PageBlock> links;
  const auto take = [&](std::string words, std::string address) {
    if (!is_address(address)) {
      reading.error(place, "page-link", in_quotes(address) + " is no web address",
                    "write it in full, as https://example.org/page");
      return;
    }
    if (address.size() > longest_address) {
      reading.error(place, "page-link",
                    "the address has " + std::to_string(address.size()) +
                        " characters, more than " + std::to_string(longest_address),
                    "find a shorter one, or the code could not be scanned");
      return;
    }
    PageBlock block;
    block.kind = PageBlock::Kind::link;
    block.text = std::move(words);
    block.link = std::move(address);
    block.at = reading.at(place);
    links.push_back(std::move(block));
  };
  std::string rest;
  for (std::size_t at = 0; at < text.size();) {
    if (text[at] == '[') {
      const std::size_t middle = text.find("](", at);
      const std::size_t end = middle == std::string::npos ? middle : text.find(')', middle);
      if (end != std::string::npos) {
        const std::string words = text.substr(at + 1, middle - at - 1);
        take(words, text.substr(middle + 2, end - middle - 2));
        rest += words;
        at = end + 1;
        continue;
      }
    }
    if (text[at] == '<') {
      const std::size_t end = text.find('>', at);
      if (end != std::string::npos && text.compare(at + 1, 4, "http") == 0) {
        const std::string address = text.substr(at + 1, end - at - 1);
        take({}, address);
        rest += address;
        at = end + 1;
        continue;
      }
    }
    rest += text[at++];
  }
  // A block that is nothing but one link is the link.
  if (links.size() == 1 && (rest == links.front().text || rest == links.front().link)) rest.clear();
  text = std::move(rest);
  return links;
}

bool only(std::string_view text, char c, std::size_t least) {
  return text.size() >= least &&
         std::all_of(text.begin(), text.end(), [c](char other) { return other == c; });
}

// "12. " or "12) ": the number and how many bytes it takes.
std::optional<std::pair<int, std::size_t>> number_of(std::string_view text) {
  std::size_t digits = 0;
  while (digits < text.size() && text[digits] >= '0' && text[digits] <= '9') ++digits;
  if (digits == 0 || digits > 3 || digits + 1 >= text.size()) return std::nullopt;
  if ((text[digits] != '.' && text[digits] != ')') || text[digits + 1] != ' ')
    return std::nullopt;
  return std::pair(*parse_integer(text.substr(0, digits)), digits + 2);
}

void add(Page& page, PageBlock::Kind kind, std::string_view text, Place place, int number = 0) {
  PageBlock block;
  block.kind = kind;
  block.text = trimmed(text);
  block.number = number;
  block.at = page.reading.at(place);
  page.text.blocks.push_back(std::move(block));
  page.open = kind != PageBlock::Kind::heading && kind != PageBlock::Kind::new_page;
}

void read_line(Page& page, std::string_view line, int number) {
  using Kind = PageBlock::Kind;
  const std::size_t indent = std::min(line.find_first_not_of(" \t"), line.size());
  const std::string_view text = trimmed(line);
  const Place place{number, static_cast<int>(indent) + 1};
  if (text.empty()) {
    page.open = false;
  } else if (only(text, '_', 3)) {
    if (page.text.blocks.empty()) add(page, Kind::paragraph, {}, place);
    ++page.text.blocks.back().lines;
    page.open = false;
  } else if (only(text, '-', 3)) {
    add(page, Kind::new_page, {}, place);
  } else if (text.starts_with("# ")) {
    if (!page.text.title.empty() || !page.text.blocks.empty())
      page.reading.error(place, "page-title", "a second title, or one that is not at the top",
                         "write ## for a heading, and one # line at the top");
    page.text.title = trimmed(text.substr(2));
  } else if (text.starts_with("## ")) {
    add(page, Kind::heading, text.substr(3), place);
  } else if (text.starts_with("- ") || text.starts_with("* ")) {
    add(page, Kind::bullet, text.substr(2), place);
  } else if (text.starts_with("! ")) {
    add(page, Kind::caution, text.substr(2), place);
  } else if (const auto item = number_of(text)) {
    add(page, Kind::number, text.substr(item->second), place, item->first);
  } else if (text.starts_with('#')) {
    page.reading.error(place, "page-line", in_quotes(text, 20) + " is no heading",
                       "write # or ## and a space before it");
  } else if (page.open && page.text.blocks.back().lines == 0) {
    page.text.blocks.back().text += ' ' + std::string(text);
  } else {
    add(page, Kind::paragraph, text, place);
  }
}

}  // namespace

Result<PageText> page_text(std::string_view bytes, const std::string& path) {
  if (bytes.size() > most_page_bytes)
    return error("file-large", {path, 0, 0}, "the page is larger than 1024 kB", "make it smaller");
  const Result<std::string> text = text_from(bytes, path);
  if (!text) return text.findings();
  Reading reading{path, {}};
  Page page{{}, reading};
  std::string_view rest = *text;
  for (int number = 1; !rest.empty(); ++number) {
    const std::size_t end = rest.find('\n');
    read_line(page, rest.substr(0, end), number);
    if (end == std::string_view::npos) break;
    rest.remove_prefix(end + 1);
  }
  take_emphasis(page.text.title);  // it stands in contents and bookmarks, too
  if (page.text.title.empty())
    reading.error({1, 1}, "page-title", "the page has no title", "begin it with a line # Title");
  if (page.text.blocks.empty())
    reading.error({1, 1}, "page-empty", "the page has nothing below its title",
                  "write something or remove it");

  std::vector<PageBlock> blocks;
  for (PageBlock& block : page.text.blocks) {
    const Place place{block.at.line, block.at.column};
    std::vector<PageBlock> links = links_of(block.text, place, reading);
    const bool bare = block.kind == PageBlock::Kind::paragraph && block.text.empty() &&
                      block.lines == 0 && !links.empty();
    if (!bare) {
      // An item that is a link keeps its words: the code stands below it.
      if (block.text.empty() && !links.empty())
        block.text = links.front().text.empty() ? links.front().link : links.front().text;
      block.emphasis = take_emphasis(block.text);
      blocks.push_back(std::move(block));
    }
    for (PageBlock& link : links) {
      if (!bare) link.text.clear();
      take_emphasis(link.text);  // set in bold as it is
      blocks.push_back(std::move(link));
    }
  }
  page.text.blocks = std::move(blocks);
  Findings findings = sorted(std::move(reading.findings));
  if (has_error(findings)) return findings;
  return {std::move(page.text), std::move(findings)};
}

}  // namespace platewright::read
