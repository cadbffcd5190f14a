// Who may include what: the stages run one way. Linking keeps our own folders
// apart; this keeps system headers apart too. And no two types share a name, and few
// have virtual functions.
#include <gtest/gtest.h>

#include <filesystem>
#include <map>
#include <set>

#include "support/demo.hpp"
#include "support/scratch.hpp"
#include "support/words.hpp"

namespace {

namespace fs = std::filesystem;

struct Allowed {
  std::set<std::string> folders;   // of src/
  std::set<std::string> libraries; // by the first part of the include
};

const std::map<std::string, Allowed>& table() {
  static const std::map<std::string, Allowed> rows = {
      {"base", {{"base"}, {}}},
      {"model", {{"base", "model"}, {}}},
      // librsvg draws into Cairo surfaces and PDFs and reads from GLib streams; poppler and qpdf
      // read finished PDFs.
      {"read",
       {{"base", "model", "read"},
        {"pugixml.hpp", "yaml-cpp", "librsvg", "cairo.h", "cairo-pdf.h", "gio", "glib.h",
         "glib-object.h", "poppler.h", "dlfcn.h", "qpdf"}}},
      // Pango draws and measures through Cairo.
      {"text",
       {{"base", "model", "text"},
        {"pango", "fontconfig", "cairo.h", "glib.h", "glib-object.h", "qrencode.h"}}},
      {"place", {{"base", "model", "place"}, {"Eigen"}}},
      {"compose", {{"base", "model", "text", "place", "compose"}, {}}},
      // text/draw.hpp draws a measured line as it was measured.
      {"emit",
       {{"base", "model", "compose", "text", "emit"},
        {"cairo.h", "cairo-pdf.h", "cairo", "librsvg", "qpdf", "pugixml.hpp", "gio", "glib.h",
         "glib-object.h"}}},
      {"engine",
       {{"base", "model", "read", "text", "place", "compose", "emit", "engine"},
        {"elf.h", "fcntl.h", "link.h", "sys", "unistd.h"}}},
      {"cli", {{"cli"}, {"CLI", "malloc.h", "sys", "unistd.h"}}},
  };
  return rows;
}

bool is_standard(const std::string& header) {
  return header.find('/') == std::string::npos && header.find(".h") == std::string::npos;
}

TEST(Includes, Follow_the_table_of_DEVELOPERS_md) {
  int seen = 0;
  for (const auto& [folder, allowed] : table()) {
    for (const auto& entry : fs::recursive_directory_iterator(support::source("src/" + folder))) {
      const std::string ending = entry.path().extension().string();
      if (ending != ".cpp" && ending != ".hpp") continue;
      for (const std::string& line : support::split(support::bytes_of(entry.path()), '\n')) {
        if (!line.starts_with("#include ")) continue;
        ++seen;
        const bool own = line[9] == '"';
        const std::string name = line.substr(10, line.find_first_of("\">", 10) - 10);
        const std::string first = name.substr(0, name.find('/'));
        const std::string where = entry.path().string() + ": " + line;
        if (own) {
          // Headers beside the source may go without their folder.
          const bool beside = first == name;
          EXPECT_TRUE(beside || first == "platewright" || allowed.folders.count(first)) << where;
        } else {
          EXPECT_TRUE(is_standard(name) || allowed.libraries.count(first)) << where;
        }
      }
    }
  }
  EXPECT_GT(seen, 300);
}

// The linker keeps one of two types of one name and says nothing.
TEST(Types, Of_one_namespace_have_names_of_their_own) {
  std::map<std::string, std::string> where;  // by namespace and name
  for (const char* folder : {"include/platewright", "src"})
    for (const auto& entry : fs::recursive_directory_iterator(support::source(folder))) {
      const std::string ending = entry.path().extension().string();
      if (ending != ".cpp" && ending != ".hpp") continue;
      std::string space;
      bool local = false;  // in a namespace without a name
      for (const std::string& line : support::split(support::bytes_of(entry.path()), '\n')) {
        if (line == "namespace {") local = true;
        if (line == "}  // namespace") local = false;
        const std::vector<std::string> words = support::split(line, ' ');
        if (words.size() == 3 && words[0] == "namespace" && words[2] == "{") space = words[1];
        if (local || line.find('{') == std::string::npos) continue;
        std::size_t at = words[0] == "struct" || words[0] == "class" ? 1 : 0;
        if (words.size() > 2 && words[0] == "enum" && words[1] == "class") at = 2;
        if (at == 0 || words[at].find_first_of(":<") != std::string::npos) continue;
        const auto [it, fresh] = where.emplace(space + "::" + words[at], entry.path().string());
        EXPECT_TRUE(fresh) << it->first << " is in " << it->second << " and in " << entry.path();
      }
    }
  EXPECT_GT(where.size(), 300U);
}

// The sanitized build looks at no virtual functions in these (see CMakeLists.txt).
TEST(Types, Of_most_stages_have_no_virtual_functions) {
  int seen = 0;
  for (const char* folder :
       {"src/base", "src/model", "src/text", "src/place", "src/compose", "src/engine", "include"})
    for (const auto& entry : fs::recursive_directory_iterator(support::source(folder))) {
      if (!entry.is_regular_file()) continue;
      ++seen;
      for (const std::string& line : support::split(support::bytes_of(entry.path()), '\n'))
        for (const char* word : {"virtual ", " override", "dynamic_cast", "typeid"})
          EXPECT_FALSE(support::contains(line.substr(0, line.find("//")), word))
              << entry.path() << ": " << line;
    }
  EXPECT_GT(seen, 150);
}

TEST(Includes, Public_headers_name_no_third_party) {
  for (const auto& entry : fs::directory_iterator(support::source("include/platewright")))
    for (const std::string& line : support::split(support::bytes_of(entry.path()), '\n')) {
      if (!line.starts_with("#include ")) continue;
      const std::string name = line.substr(10, line.find_first_of("\">", 10) - 10);
      EXPECT_TRUE(line[9] == '"' ? name.starts_with("platewright/") : is_standard(name))
          << entry.path() << ": " << line;
    }
}

}  // namespace
