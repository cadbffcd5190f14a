#include "golden/browser.hpp"

#include <algorithm>
#include <charconv>
#include <stdexcept>

#include "support/demo.hpp"
#include "support/process.hpp"
#include "support/scratch.hpp"
#include "support/words.hpp"

namespace golden {
namespace {

// A JavaScript string, safe inside a script file.
std::string script_string(const std::string& text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') {
      out += '\\';
      out += c;
    } else if (c == '\n') {
      out += "\\n";
    } else if (c == '\r') {
      out += "\\r";
    } else {
      out += c;
    }
  }
  return out + "\"";
}

Box box_at(const std::vector<std::string>& fields, std::size_t first) {
  return {support::number(fields[first]), support::number(fields[first + 1]),
          support::number(fields[first + 2]), support::number(fields[first + 3])};
}

void read_line(const std::vector<std::string>& f, std::vector<SeenSheet>& sheets) {
  const std::string& what = f.front();
  if (what == "sheet") {
    sheets.emplace_back();
    sheets.back().name = f.at(1);
    return;
  }
  SeenSheet& sheet = sheets.at(sheets.size() - 1);
  if (what == "page") {
    sheet.width = f.at(1);
    sheet.height = f.at(2);
    sheet.view_box = f.at(3);
  } else if (what == "label") {
    sheet.labels.push_back({f.at(1), box_at(f, 2), -1});
  } else if (what == "text") {
    SeenText text{f.at(1), f.at(2), box_at(f, 3), 0, f.at(8), 0, 0, f.at(11)};
    text.size_pt = support::number(f[7]) * 72 / 25.4;
    text.length = support::number(f[9]);
    text.natural = support::number(f[10]);
    sheet.texts.push_back(std::move(text));
  } else if (what == "leader") {
    sheet.leaders.push_back({f.at(1), f.at(2) != "identity", branches_of(f.at(3)), {}});
  } else if (what == "end") {
    sheet.leaders.back().hits.push_back(f.at(2));
  } else if (what == "ink") {
    sheet.ink = {support::number(f.at(1)), support::number(f.at(2)), support::number(f.at(3)),
                 support::number(f.at(4))};
  } else if (what == "under") {
    for (SeenLabel& label : sheet.labels)
      if (label.anchor == f.at(1)) label.painted_under = static_cast<int>(support::number(f.at(2)));
  } else if (what == "fault") {
    sheet.faults.push_back(f.at(1));
  } else {
    throw std::runtime_error("not understood of the browser: " + what);
  }
}

}  // namespace

std::vector<std::vector<Point>> branches_of(const std::string& d) {
  std::vector<std::vector<Point>> branches;
  const char* at = d.data();
  const char* const end = d.data() + d.size();
  const auto skip = [&] {
    while (at != end && (*at == ' ' || *at == ',')) ++at;
  };
  const auto number = [&] {
    skip();
    double value = 0;
    const auto read = std::from_chars(at, end, value);
    if (read.ec != std::errc()) throw std::runtime_error("a leader's path: " + d);
    at = read.ptr;
    return value;
  };
  for (skip(); at != end; skip()) {
    const char command = *at++;
    if (command != 'M' && command != 'L') throw std::runtime_error("a leader's path: " + d);
    if (command == 'M') branches.emplace_back();
    if (branches.empty()) throw std::runtime_error("a leader's path: " + d);
    const double x = number();
    branches.back().push_back({x, number()});
  }
  return branches;
}

std::vector<SeenSheet> look_at(const std::vector<Shown>& sheets) {
  const std::string chromium = support::tool("chromium");
  if (chromium.empty()) throw std::runtime_error("chromium is not installed");
  const support::Scratch scratch;
  std::string html =
      "<!DOCTYPE html><meta charset=\"utf-8\"><body><div id=\"stage\"></div><pre "
      "id=\"seen\"></pre><script src=\"measure.js\"></script>\n";
  support::write(scratch / "measure.js",
                 support::bytes_of(support::source("tests/golden/measure.js")));
  for (std::size_t i = 0; i < sheets.size(); ++i) {
    const std::string file = std::to_string(i) + ".js";
    support::write(scratch / file, "sheet(" + script_string(sheets[i].name) + "," +
                                       script_string(sheets[i].svg) + "," +
                                       (sheets[i].rasters ? "true" : "false") + ");\n");
    html += "<script charset=\"utf-8\" src=\"" + file + "\"></script>\n";
  }
  support::write(scratch / "index.html", html);
  support::Limits limits;
  limits.seconds = 240;
  const support::Finished browser = support::run(
      {chromium, "--headless", "--no-sandbox", "--disable-gpu", "--disable-background-networking",
       "--disable-dev-shm-usage", "--no-first-run", "--user-data-dir=" + (scratch / "profile"),
       "--virtual-time-budget=100000000", "--dump-dom", "file://" + (scratch / "index.html")},
      limits);
  const std::vector<std::string> seen =
      support::between(browser.out, "<pre id=\"seen\">", "</pre>");
  if (seen.size() != 1 || !seen[0].ends_with("done"))
    throw std::runtime_error("the browser did not finish: " + browser.said());
  std::vector<SeenSheet> result;
  for (const std::string& line : support::split(seen[0], '\n')) {
    if (line == "done") break;
    std::vector<std::string> fields;
    for (const std::string& field : support::split(line, '\t'))
      fields.push_back(support::decoded_percent(support::decoded_xml(field)));
    read_line(fields, result);
  }
  if (result.size() != sheets.size()) throw std::runtime_error("the browser lost sheets");
  return result;
}

}  // namespace golden
