// What a bound edition is, by qpdf, poppler and zbar, which share no code with ours.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <yaml-cpp/yaml.h>

#include "pack_files.hpp"
#include "support/words.hpp"

namespace {

using support::contains;
using testing::HasSubstr;

// The objects of a PDF as qpdf tells them in JSON, version 2; JSON is YAML.
class Objects {
 public:
  explicit Objects(const std::string& pdf)
      : root_(YAML::Load(support::run({"qpdf", "--json=2", pdf}).out)) {
    for (const YAML::Node& page : root_["pages"]) pages_.push_back(page["object"].as<std::string>());
  }
  YAML::Node get(const YAML::Node& value) const {
    if (!value.IsScalar()) return value;
    const std::string text = value.as<std::string>();
    if (text.size() < 3 || !text.ends_with(" R")) return value;
    return root_["qpdf"][1]["obj:" + text]["value"];
  }
  const std::vector<std::string>& pages() const { return pages_; }
  YAML::Node page(std::size_t i) const { return get(YAML::Node(pages_[i])); }
  // Which page (from 1) an explicit destination names.
  int target(const YAML::Node& destination) const {
    const std::string wanted = get(destination)[0].as<std::string>();
    const auto found = std::find(pages_.begin(), pages_.end(), wanted);
    return found == pages_.end() ? 0 : static_cast<int>(found - pages_.begin()) + 1;
  }
  YAML::Node root() const { return root_; }

 private:
  YAML::Node root_;
  std::vector<std::string> pages_;
};

// "u:Herz" is a text.
std::string plain(const YAML::Node& text) {
  const std::string value = text.as<std::string>();
  return value.starts_with("u:") ? value.substr(2) : value;
}

class PackPdf : public testing::Test {
 protected:
  static void SetUpTestSuite() {
    small_ = new pack::Small;
    const auto made = small_->make("out", "cache");
    ASSERT_EQ(made.code, 0) << made.said();
  }
  static void TearDownTestSuite() {
    delete small_;
    small_ = nullptr;
  }
  static std::string book(const std::string& set) {
    return small_->path("out/small-" + set + "-a4.pdf");
  }
  static inline pack::Small* small_ = nullptr;
};

TEST_F(PackPdf, Is_sound_and_embeds_its_fonts) {
  for (const std::string set : {"middle", "klein"}) {
    EXPECT_EQ(support::run({"qpdf", "--check", book(set)}).code, 0) << set;
    const auto fonts = support::split(support::run({"pdffonts", book(set)}).out, '\n');
    ASSERT_GT(fonts.size(), 3U);
    // Columns from the right: object ID (two), uni, sub, emb.
    for (std::size_t i = 2; i < fonts.size(); ++i) {
      const auto words = support::split(support::folded(fonts[i]), ' ');
      if (words.size() < 6) continue;
      EXPECT_EQ(words[words.size() - 5], "yes") << fonts[i];
    }
  }
}

TEST_F(PackPdf, Links_its_contents_to_the_pages_that_they_name) {
  for (const std::string set : {"middle", "klein"}) {
    const Objects objects(book(set));
    int links = 0;
    for (std::size_t p = 0; p < objects.pages().size(); ++p) {
      const YAML::Node notes = objects.get(objects.page(p)["/Annots"]);
      for (std::size_t i = 0; notes && i < notes.size(); ++i) {
        const YAML::Node note = objects.get(notes[i]);
        if (!note["/Dest"]) continue;
        ++links;
        const int target = objects.target(note["/Dest"]);
        ASSERT_GT(target, 0);
        const std::string says = plain(note["/Contents"]);
        // The contents print that number beside these words, and the page bears it.
        EXPECT_THAT(pack::text_of(book(set), target), HasSubstr(std::to_string(target)));
        const std::string on = pack::text_of(book(set), static_cast<int>(p) + 1);
        EXPECT_THAT(on, HasSubstr(says.substr(0, says.find(' '))));
      }
    }
    EXPECT_GE(links, 15);
  }
}

TEST_F(PackPdf, Names_its_texts_and_sheets_on_the_pages_that_the_contents_give) {
  const std::string contents = pack::text_of(book("middle"), 2);
  const auto page_after = [&](const std::string& words) {
    const std::size_t at = contents.find(words);
    EXPECT_NE(at, std::string::npos) << words << " in " << contents;
    const std::size_t digit = contents.find_first_of("0123456789", at + words.size());
    return std::stoi(contents.substr(digit));
  };
  EXPECT_THAT(pack::text_of(book("middle"), page_after("The pump that never sleeps")),
              HasSubstr("Put your hand on your chest"));
  EXPECT_THAT(pack::text_of(book("middle"), page_after("Make a listening tube")),
              HasSubstr("Take care"));
  EXPECT_THAT(pack::text_of(book("middle"), page_after("Colouring page")),
              HasSubstr("Colour in the picture"));
  EXPECT_THAT(pack::text_of(book("middle"), page_after("dark skin – Poster")),
              HasSubstr("Windpipe"));
}

TEST_F(PackPdf, Labels_each_page_with_the_number_printed_on_it) {
  const Objects objects(book("middle"));
  const YAML::Node labels = objects.root()["pagelabels"];
  ASSERT_EQ(labels.size(), 1U);
  EXPECT_EQ(labels[0]["index"].as<int>(), 0);
  for (int page = 2; page <= pack::pages_of(book("middle")); ++page) {
    const std::string text = pack::text_of(book("middle"), page);
    EXPECT_THAT(text, HasSubstr("A small pack")) << page;
    EXPECT_TRUE(text.ends_with(" " + std::to_string(page))) << page << ": " << text;
  }
}

TEST_F(PackPdf, Has_bookmarks_in_levels_that_lead_where_they_say) {
  const Objects objects(book("klein"));
  const YAML::Node outlines = objects.root()["outlines"];
  std::vector<std::string> top;
  for (const YAML::Node& mark : outlines) top.push_back(mark["title"].as<std::string>());
  EXPECT_THAT(top, testing::ElementsAre("Ein kleines Heft", "Inhalt", "Herz", "Körper", "Lösungen"));
  const YAML::Node heart = outlines[2]["kids"];
  ASSERT_GE(heart.size(), 3U);
  EXPECT_EQ(heart[0]["title"].as<std::string>(), "Die Pumpe, die nie schläft");
  EXPECT_THAT(pack::text_of(book("klein"), heart[0]["destpageposfrom1"].as<int>()),
              HasSubstr("Die Pumpe, die nie schläft"));
  EXPECT_EQ(heart[1]["kids"][0]["title"].as<std::string>(), "Poster");
}

TEST_F(PackPdf, Has_every_code_scanned_back_to_the_address_that_it_links) {
  for (const std::string set : {"middle", "klein"}) {
    const Objects objects(book(set));
    int codes = 0;
    for (std::size_t p = 0; p < objects.pages().size(); ++p) {
      const YAML::Node notes = objects.get(objects.page(p)["/Annots"]);
      std::vector<std::string> addresses;
      for (std::size_t i = 0; notes && i < notes.size(); ++i)
        if (const YAML::Node action = objects.get(notes[i])["/A"]; action && action.IsDefined())
          addresses.push_back(plain(objects.get(action)["/URI"]));
      if (addresses.empty()) continue;
      const support::Scratch scratch;
      const std::string number = std::to_string(p + 1);
      ASSERT_EQ(support::run({"pdftoppm", "-r", "150", "-f", number, "-l", number, "-png",
                              "-singlefile", book(set), scratch / "page"}).code, 0);
      const auto read = support::run({"zbarimg", "--quiet", "--raw", scratch / "page.png"});
      for (const std::string& address : addresses) {
        EXPECT_THAT(read.out, HasSubstr(address)) << read.said();
        EXPECT_THAT(pack::text_of(book(set), static_cast<int>(p) + 1), HasSubstr(address));
        ++codes;
      }
    }
    EXPECT_EQ(codes, 1) << set;
  }
}

TEST_F(PackPdf, Is_tagged_page_by_page_in_the_order_of_its_pages) {
  const Objects objects(book("middle"));
  const YAML::Node trailer = objects.root()["qpdf"][1]["trailer"]["value"];
  const YAML::Node catalogue = objects.get(trailer["/Root"]);
  EXPECT_EQ(plain(catalogue["/Lang"]), "en");
  const YAML::Node tree = objects.get(catalogue["/StructTreeRoot"]);
  const YAML::Node sections = objects.get(objects.get(objects.get(tree["/K"])[0])["/K"]);
  EXPECT_EQ(sections.size(), objects.pages().size());
  const YAML::Node numbers = objects.get(objects.get(tree["/ParentTree"])["/Nums"]);
  for (std::size_t p = 0; p < objects.pages().size(); ++p)
    EXPECT_EQ(objects.page(p)["/StructParents"].as<std::size_t>(), p);
  EXPECT_EQ(numbers.size(), 2 * objects.pages().size());
}

// The cover shows the heart, whose table tells who drew it; the pack's maker drew nothing.
TEST(Pack, Credits_its_cover_to_who_drew_it_and_no_drawing_to_who_compiled_it) {
  const pack::Small small;
  small.change("heart.terms.yaml", "credit: Marlpit Lane Nature Library\nlicence: MIT",
               "credit: Ada Draughtswoman\nlicence: CC0 1.0");
  small.change("small.yaml", "papers: a4", "licence: CC BY 4.0\npapers: a4");
  small.change("small.yaml", "[poster, worksheet, copywork, key, colouring]", "poster");
  small.change("small.yaml", ", versions: [as-drawn, dark, no-muscles]", "");
  ASSERT_EQ(small.make("out", "cache").code, 0);
  for (const auto& [set, drawn, compiled] : std::vector<std::array<std::string, 3>>{
           {"middle", "Drawing:", "Compiled by Marlpit Lane"},
           {"klein", "Zeichnung:", "Zusammengestellt von Marlpit Lane"}}) {
    const std::string made = small.path("out/small-" + set + "-a4.pdf");
    const std::string cover = pack::text_of(made, 1);
    EXPECT_THAT(cover, HasSubstr(drawn + " Ada Draughtswoman"));
    EXPECT_THAT(cover, HasSubstr("CC0 1.0"));
    EXPECT_THAT(cover, testing::Not(HasSubstr("CC BY 4.0")));
    EXPECT_THAT(cover, HasSubstr(compiled));
    const std::string contents = pack::text_of(made, 2);
    EXPECT_THAT(contents, testing::Not(HasSubstr(drawn)));
    EXPECT_THAT(contents, HasSubstr(compiled));
    EXPECT_THAT(contents, HasSubstr("CC BY 4.0"));
  }
}

TEST_F(PackPdf, Hides_what_a_version_hides_together_with_its_label) {
  // The diaphragm lies in the group "muscles".
  const std::string contents = pack::text_of(book("middle"), 2);
  std::vector<bool> shown;
  for (const std::string words : {"dark skin – Poster", "without muscles – Poster"}) {
    const std::size_t at = contents.find(words);
    ASSERT_NE(at, std::string::npos) << contents;
    const int page =
        std::stoi(contents.substr(contents.find_first_of("0123456789", at + words.size())));
    const std::string text = pack::text_of(book("middle"), page);
    EXPECT_THAT(text, HasSubstr("Windpipe"));
    shown.push_back(contains(text, "Diaphragm"));
  }
  EXPECT_THAT(shown, testing::ElementsAre(true, false));
}

// Fronts say how the sheets are printed; their backs do not.
TEST(Pack, Has_the_fronts_of_cards_on_odd_pages_so_that_a_printer_puts_their_backs_behind_them) {
  const pack::Small small;
  small.change("small.yaml", "[poster, worksheet, copywork, key, colouring]",
               "[cards, poster, quiz, memory, worksheet]");
  small.change("small.yaml", ", versions: [as-drawn, dark, no-muscles]", "");
  const auto done = small.make("out", "cache", {"--only", "middle-a4"});
  ASSERT_EQ(done.code, 0) << done.said();
  const std::string made = small.path("out/small-middle-a4.pdf");
  std::vector<std::string> texts{""};
  for (int page = 1; page <= pack::pages_of(made); ++page)
    texts.push_back(pack::text_of(made, page));
  int fronts = 0, empty = 0;
  for (std::size_t page = 1; page < texts.size(); ++page) {
    // Of a back the foot comes first.
    const std::string number = std::to_string(page);
    EXPECT_TRUE(page == 1 || texts[page].ends_with(" " + number) ||
                texts[page].starts_with(number + " "))
        << texts[page];
    if (contains(texts[page], "Print on both sides")) {
      ++fronts;
      EXPECT_EQ(page % 2, 1U) << texts[page];
    }
    if (texts[page].starts_with("Compiled by")) ++empty;
  }
  EXPECT_GE(fronts, 6);  // three kinds of two figures
  EXPECT_GE(empty, 1);
  EXPECT_LE(empty, 6);
  // What the contents and bookmarks say is on the page that they name.
  const Objects objects(made);
  int cards = 0;
  const std::function<void(const YAML::Node&)> look = [&](const YAML::Node& marks) {
    for (const YAML::Node& mark : marks) {
      const int page = mark["destpageposfrom1"].as<int>();
      EXPECT_FALSE(texts.at(static_cast<std::size_t>(page)).starts_with("Compiled by"))
          << mark["title"].as<std::string>();
      if (mark["title"].as<std::string>() == "Picture cards") {
        ++cards;
        EXPECT_THAT(texts.at(static_cast<std::size_t>(page)),
                    testing::AnyOf(HasSubstr("Print on both sides"), HasSubstr("Answer key")));
      }
      look(mark["kids"]);
    }
  };
  look(objects.root()["outlines"]);
  EXPECT_EQ(cards, 4);  // of two figures, with their keys
}

TEST(Pack, Puts_keys_into_a_file_of_their_own_where_the_manifest_says_so) {
  const pack::Small small;
  small.change("small.yaml", "papers: a4\n", "papers: a4\nkeys: file\n");
  ASSERT_EQ(small.make("out", "cache", {"--only", "middle-a4"}).code, 0);
  const std::string keys = small.path("out/small-middle-a4-keys.pdf");
  EXPECT_EQ(support::run({"qpdf", "--check", keys}).code, 0);
  const YAML::Node labels =
      YAML::Load(support::run({"qpdf", "--json=2", "--json-key=pagelabels", keys}).out)["pagelabels"];
  EXPECT_EQ(labels[0]["label"]["/P"].as<std::string>(), "u:K");
  const int pages = pack::pages_of(keys);
  EXPECT_TRUE(pack::text_of(keys, pages).ends_with("K" + std::to_string(pages)));
  EXPECT_THAT(pack::text_of(small.path("out/small-middle-a4.pdf"), 2),
              HasSubstr("The answer keys are in a file of their own."));
}

TEST(Pack, Tells_what_it_made_as_json) {
  const pack::Small small;
  const auto made = small.make("out", "cache", {"--only", "klein-a4", "--json"});
  ASSERT_EQ(made.code, 0) << made.said();
  const YAML::Node told = YAML::Load(made.out);
  ASSERT_EQ(told["editions"].size(), 1U);
  EXPECT_EQ(told["editions"][0]["set"].as<std::string>(), "klein");
  EXPECT_EQ(told["editions"][0]["pages"].as<int>(),
            pack::pages_of(told["editions"][0]["file"].as<std::string>()));
  EXPECT_EQ(told["parts_made"].as<int>(), 3);
}

TEST(Pack, Says_faults_of_the_request_and_writes_nothing) {
  const pack::Small small;
  const auto code_of = [&](const support::Finished& done) {
    EXPECT_EQ(done.code, 1) << done.said();
    const auto codes = support::between(done.err, "error[", "]");
    return codes.empty() ? "" : codes.front();
  };
  EXPECT_EQ(code_of(small.make("out", "cache", {"--only", "midle-a4"})), "edition-unknown");
  EXPECT_EQ(code_of(support::platewright({"pack", small.manifest()})), "out-missing");
  EXPECT_EQ(code_of(support::platewright({"pack", small.manifest(), "--part", "hart/middle/a4",
                                          "--cache", small.path("cache")})),
            "part-unknown");
  EXPECT_EQ(code_of(small.make("out", "cache", {"--bind"})), "part-missing");
  support::Limits homeless;
  homeless.environment = {{"HOME", ""}, {"XDG_CACHE_HOME", ""}};
  EXPECT_EQ(code_of(support::platewright({"pack", small.manifest(), "--list"}, homeless)),
            "cache-missing");
  small.change("small.yaml", "tube: {en: pages/listening-tube.en.txt", "tube: {en: pages/none.txt");
  EXPECT_EQ(code_of(small.make("out", "cache")), "file-missing");
  EXPECT_TRUE(pack::files(small.path("out")).empty());
}

}  // namespace
