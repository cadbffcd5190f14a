#include "pack_files.hpp"

#include <gtest/gtest.h>

#include <filesystem>

#include "support/demo.hpp"
#include "support/words.hpp"

namespace pack {

namespace fs = std::filesystem;

namespace {

const std::string manifest_text = R"(title: {en: A small pack, de: Ein kleines Heft}
subtitle: {en: For a morning, de: Für einen Vormittag}
credit: Marlpit Lane Nature Library
papers: a4
sets: [middle, klein]
kinds: [poster, worksheet, copywork, key, colouring]
figures:
  heart: heart.terms.yaml
  child: {terms: child.terms.yaml, versions: [as-drawn, dark, no-muscles]}
versions:
  dark: {title: {en: dark skin, de: dunkle Haut}, tints: {skin: "#8a5a3c"}}
  no-muscles: {title: {en: without muscles, de: ohne Muskeln}, hide: muscles}
pages:
  reading: {en: pages/reading.en.txt, de: pages/reading.de.txt}
  tube: {en: pages/listening-tube.en.txt, de: pages/listening-tube.de.txt}
sections:
  - {title: {en: Heart, de: Herz}, before: reading, figures: heart, after: tube, contents: yes}
  - {title: {en: Body, de: Körper}, figures: child}
except:
  - {versions: [dark, no-muscles], kinds: [worksheet, copywork, key, colouring]}
)";

}  // namespace

Small::Small() {
  for (const std::string figure : {"heart", "child"}) {
    fs::copy_file(support::demo_svg(figure), path(figure + ".svg"));
    fs::copy_file(support::demo_terms(figure), path(figure + ".terms.yaml"));
  }
  fs::copy(support::source("figures/demo/pages"), path("pages"));
  support::write(path("small.yaml"), manifest_text);
}

Small::Small(const Small& made, const std::vector<std::string>& folders) : Small() {
  for (const std::string& folder : folders)
    fs::copy(made.path(folder), path(folder), fs::copy_options::recursive);
}

Small Small::built() {
  static const Small base;
  if (!fs::exists(base.path("out"))) {
    const support::Finished done = base.make("out", "cache");
    EXPECT_EQ(done.code, 0) << done.said();
  }
  return Small(base, {"out", "cache"});
}

void Small::change(const std::string& file, const std::string& what, const std::string& by) const {
  std::string text = support::bytes_of(path(file));
  const std::size_t at = text.find(what);
  ASSERT_NE(at, std::string::npos) << what;
  support::write(path(file), text.replace(at, what.size(), by));
}

support::Finished Small::make(const std::string& out, const std::string& cache,
                              std::vector<std::string> more,
                              const support::Limits& limits) const {
  std::vector<std::string> arguments{"pack", manifest(), "--out", path(out), "--cache",
                                     path(cache)};
  arguments.insert(arguments.end(), more.begin(), more.end());
  return support::platewright(arguments, limits);
}

std::map<std::string, std::string> files(const std::string& folder) {
  return support::contents(folder);
}

std::string text_of(const std::string& pdf, int page) {
  const std::string number = std::to_string(page);
  return support::folded(
      support::run({"pdftotext", "-layout", "-f", number, "-l", number, pdf, "-"}).out);
}

int pages_of(const std::string& pdf) {
  return std::stoi(support::run({"qpdf", "--show-npages", pdf}).out);
}

}  // namespace pack
