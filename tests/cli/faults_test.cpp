// The machine at fault: full disks, folders and homes that can't be written,
// files that go while they are read, signals, fonts and caches that are missing,
// two runs at once. Nothing is lost, nothing is half there, a finding says what
// is wrong.
#include <gtest/gtest.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <atomic>
#include <chrono>
#include <filesystem>
#include <optional>
#include <thread>

#include "support/demo.hpp"
#include "support/process.hpp"
#include "support/scratch.hpp"
#include "support/words.hpp"

namespace {

namespace fs = std::filesystem;
using Arguments = std::vector<std::string>;
using support::contains;

Arguments sheet(const std::string& out, const std::string& kinds = "poster") {
  return {"sheet",    support::demo_svg("tooth"), "--terms", support::demo_terms("tooth"),
          "--set",    "middle",                   "--kind",  kinds,
          "--out",    out};
}

// What writes files, each with the place that it writes to.
std::vector<std::pair<std::string, Arguments>> writers(const support::Scratch& scratch) {
  support::write(scratch / "pack.yaml", "title: A tooth\npapers: [a4]\nsets: [middle]\nkinds: [poster]\nfigures:\n  tooth: " +
                                            support::demo_terms("tooth") + "\n");
  const std::string out = scratch / "out/";
  const auto made = support::platewright(sheet(
      scratch / "tooth.pdf", "poster,worksheet,copywork,key,numbered,colouring,paste,matching,sort,cards,quiz"));
  EXPECT_EQ(made.code, 0) << made.said();
  support::write(scratch / "strict.yaml", "extends: classroom\nproof: {least-text: 60 pt}\n");  // much to tell of each page
  auto reported = sheet(out + "sheet.svg");
  reported.insert(reported.end(), {"--report", out + "sheet.json"});
  return {{"PDF", sheet(out + "sheet.pdf")},
          {"PNG", sheet(out + "sheet.png")},
          {"folder", sheet(out, "poster,worksheet,key")},
          {"report", reported},
          {"true size", {"truesize", support::demo_svg("tooth"), "--between", "crown,root=20cm", "--out",
                         out + "large.pdf"}},
          {"pack", {"pack", scratch / "pack.yaml", "--cache", scratch / "out/cache", "--out", out}},
          {"proof", {"proof", scratch / "tooth.pdf", "--style", scratch / "strict.yaml", "--report",
                     out + "proof.html"}}};
}

TEST(Faults, A_file_that_may_not_grow_is_a_finding_and_leaves_no_trace) {
  const support::Scratch scratch;
  for (const auto& [name, arguments] : writers(scratch)) {
    fs::create_directories(scratch / "out");
    support::write(scratch / "out/sheet.pdf", "an older sheet");
    Arguments command{"/bin/sh", "-c", "ulimit -f 8; exec \"$0\" \"$@\"", support::program()};
    command.insert(command.end(), arguments.begin(), arguments.end());
    const auto done = support::run(command);
    EXPECT_EQ(done.code, 1) << name << done.said();
    EXPECT_TRUE(contains(done.err, "error[write-failed]")) << name << done.said();
    EXPECT_TRUE(contains(done.err, "free some space")) << name << done.said();
    for (const auto& [file, bytes] : support::contents(scratch / "out"))
      EXPECT_TRUE(fs::is_directory(scratch / ("out/" + file)) ||
                  (file == "sheet.pdf" && bytes == "an older sheet"))
          << name << " left " << file;
    fs::remove_all(scratch / "out");
  }
}

constexpr const char* no_mount = "no file system can be mounted here, or a sanitizer watches";

// Runs a command in a name space with a file system of its own at `place`; nothing
// where this machine lets nobody mount one.
std::optional<support::Finished> mounted(const std::string& options, const std::string& place,
                                         const Arguments& arguments, const std::string& then) {
  const auto inside = [&](const std::string& script, const Arguments& more) {
    Arguments command{"unshare", "--user", "--map-root-user", "--mount", "/bin/sh", "-c", script,
                      support::program()};
    command.insert(command.end(), more.begin(), more.end());
    return support::run(command);
  };
  // A sanitizer looks for leaks by tracing, which a name space may forbid.
  if (support::sanitized()) return std::nullopt;
  const std::string mount = "mount -t tmpfs -o " + options + " none '" + place + "'";
  if (inside(mount, {}).code != 0) return std::nullopt;
  return inside(mount + " && \"$0\" \"$@\"; code=$?; " + then + "; exit $code", arguments);
}

TEST(Faults, A_full_disk_is_a_finding_and_leaves_no_trace) {
  const support::Scratch scratch;
  const auto all = writers(scratch);
  fs::create_directories(scratch / "out");
  for (const auto& [name, arguments] : all) {
    const auto done = mounted("size=16k", scratch / "out", arguments,
                              "find '" + (scratch / "out") + "' -type f");
    if (!done) GTEST_SKIP() << no_mount;
    EXPECT_EQ(done->code, 1) << name << done->said();
    EXPECT_TRUE(contains(done->err, "No space left on device; free some space")) << name << done->said();
    for (const std::string& line : support::split(done->out, '\n'))
      EXPECT_FALSE(contains(line, "out/")) << name << " left " << line;
  }
}

TEST(Faults, A_disk_that_is_for_reading_only_is_a_finding) {
  const support::Scratch scratch;
  const auto all = writers(scratch);
  fs::create_directories(scratch / "out");
  for (const auto& [name, arguments] : all) {
    const auto done = mounted("ro", scratch / "out", arguments, "true");
    if (!done) GTEST_SKIP() << no_mount;
    EXPECT_EQ(done->code, 1) << name << done->said();
    EXPECT_TRUE(contains(done->err, "Read-only file system; choose a place that can be written"))
        << name << done->said();
  }
}

TEST(Faults, Standard_output_that_is_full_is_told_by_the_exit_status) {
  for (const std::string verb : {"papers", "styles"}) {
    const auto done = support::run({"/bin/sh", "-c", "exec \"$0\" \"$1\" > /dev/full", support::program(), verb});
    EXPECT_EQ(done.code, 1) << done.said();
    EXPECT_TRUE(contains(done.err, "error[write-failed]: standard output")) << done.said();
  }
}

TEST(Faults, Files_that_go_and_come_while_they_are_read_are_findings_or_read_whole) {
  const support::Scratch scratch;
  const std::string svg = support::bytes_of(support::demo_svg("tooth")),
                    terms = support::bytes_of(support::demo_terms("tooth"));
  ASSERT_EQ(support::platewright(sheet(scratch / "finished.pdf")).code, 0);
  const std::string finished = support::bytes_of(scratch / "finished.pdf");
  const std::vector<std::pair<std::string, std::string>> files = {
      {"tooth.svg", svg}, {"tooth.terms.yaml", terms}, {"looked.pdf", finished}};
  for (const auto& [name, bytes] : files) support::write(scratch / name, bytes);
  std::atomic<bool> over{false};
  std::thread meddler([&] {
    for (int round = 0; !over; ++round) {
      const auto& [name, bytes] = files[static_cast<std::size_t>(round) % files.size()];
      fs::remove(scratch / name);
      std::this_thread::sleep_for(std::chrono::milliseconds(3));
      support::write(scratch / name, bytes.substr(0, bytes.size() / 2));
      support::write(scratch / name, bytes);
      std::this_thread::sleep_for(std::chrono::milliseconds(20));
    }
  });
  int good = 0;
  for (int round = 0; round < 12; ++round) {
    const std::string out = scratch / ("out-" + std::to_string(round));
    const auto made = support::platewright(
        {"sheet", scratch / "tooth.svg", "--terms", scratch / "tooth.terms.yaml", "--set", "middle",
         "--kind", "poster,key", "--out", out + "/"});
    EXPECT_TRUE(made.code == 0 || (made.code == 1 && contains(made.err, "error["))) << made.said();
    EXPECT_EQ(fs::exists(out), made.code == 0) << made.said();
    good += made.code == 0;
    const auto looked = support::platewright({"proof", scratch / "looked.pdf"});
    EXPECT_TRUE(looked.code == 0 || (looked.code == 1 && contains(looked.err, "error["))) << looked.said();
  }
  over = true;
  meddler.join();
  RecordProperty("good", good);
}

TEST(Faults, A_signal_ends_it_as_that_signal_and_leaves_only_whole_files) {
  const support::Scratch scratch;
  const std::string out = scratch / "out/";
  const auto whole = support::platewright(sheet(out, "poster,worksheet,copywork,key"));
  ASSERT_EQ(whole.code, 0) << whole.said();
  const auto expected = support::contents(out);
  const std::string program = support::program();
  for (const int signal : {SIGTERM, SIGINT, SIGHUP, SIGKILL})
    for (const double share : {0.3, 0.9, 0.97, 1.0}) {
      const pid_t child = ::fork();
      if (child == 0) {
        Arguments arguments = sheet(out, "poster,worksheet,copywork,key");
        arguments.insert(arguments.begin(), program);
        arguments.insert(arguments.end(), "--quiet");
        std::vector<char*> argv;
        for (std::string& word : arguments) argv.push_back(word.data());
        argv.push_back(nullptr);
        ::execv(argv[0], argv.data());
        ::_exit(127);
      }
      std::this_thread::sleep_for(std::chrono::duration<double>(share * whole.seconds));
      ::kill(child, signal);
      int status = 0;
      ::waitpid(child, &status, 0);
      EXPECT_TRUE((WIFSIGNALED(status) && WTERMSIG(status) == signal) ||
                  (WIFEXITED(status) && WEXITSTATUS(status) == 0))
          << status;
      for (const auto& [name, bytes] : support::contents(out)) {
        const bool draft = contains(name, ".platewright-");
        if (draft && signal == SIGKILL) continue;  // the next run but one clears it away
        EXPECT_FALSE(draft) << name;
        EXPECT_TRUE(expected.contains(name) && expected.at(name) == bytes) << name;
      }
    }
}

TEST(Faults, A_missing_font_is_a_finding_that_names_the_package) {
  const support::Scratch scratch;
  support::write(scratch / "fonts.conf", "<?xml version=\"1.0\"?><fontconfig><dir>" + (scratch / "none") +
                                             "</dir></fontconfig>");
  support::Limits limits;
  limits.environment = {{"FONTCONFIG_FILE", scratch / "fonts.conf"}};
  for (const std::string ending : {"pdf", "svg", "png"}) {
    const auto done = support::platewright(sheet(scratch / ("sheet." + ending)), limits);
    EXPECT_EQ(done.code, 1) << done.said();
    EXPECT_TRUE(contains(done.err, "error[face-missing]")) << done.said();
    EXPECT_TRUE(contains(done.err, "fonts-sil-andika")) << done.said();
    EXPECT_FALSE(fs::exists(scratch / ("sheet." + ending)));
  }
}

TEST(Faults, A_missing_reader_of_PDFs_is_a_finding_that_names_the_package) {
  const support::Scratch scratch;
  ASSERT_EQ(support::platewright(sheet(scratch / "sheet.pdf")).code, 0);
  fs::create_directory(scratch / "lib");
  support::write(scratch / "lib/libpoppler-glib.so.8", "no library");
  support::Limits limits;
  limits.environment = {{"LD_LIBRARY_PATH", scratch / "lib"}};
  const auto done = support::platewright({"proof", scratch / "sheet.pdf"}, limits);
  EXPECT_EQ(done.code, 1) << done.said();
  EXPECT_TRUE(contains(done.err, "error[poppler-missing]")) << done.said();
  EXPECT_TRUE(contains(done.err, "libpoppler-glib8")) << done.said();
  // Nothing else asks for it.
  EXPECT_EQ(support::platewright(sheet(scratch / "other.pdf"), limits).code, 0);
}

TEST(Faults, A_home_and_a_font_cache_that_cannot_be_written_change_no_byte) {
  const support::Scratch scratch;
  support::write(scratch / "fonts.conf",
                 "<?xml version=\"1.0\"?><fontconfig><include ignore_missing=\"yes\">/etc/fonts/conf.d</include>"
                 "<dir>/usr/share/fonts</dir><dir>/usr/local/share/fonts</dir></fontconfig>");
  ASSERT_EQ(support::platewright(sheet(scratch / "usual.pdf")).code, 0);
  support::Limits limits;
  limits.environment = {{"HOME", "/proc/no-such-home"},
                        {"XDG_CACHE_HOME", "/proc/no-such-cache"},
                        {"FONTCONFIG_FILE", scratch / "fonts.conf"}};
  const auto done = support::platewright(sheet(scratch / "odd.pdf"), limits);
  ASSERT_EQ(done.code, 0) << done.said();
  EXPECT_EQ(support::bytes_of(scratch / "odd.pdf"), support::bytes_of(scratch / "usual.pdf"));
  writers(scratch);  // the manifest
  const auto packed = support::platewright({"pack", scratch / "pack.yaml", "--out", scratch / "packs"}, limits);
  EXPECT_EQ(packed.code, 0) << packed.said();
  EXPECT_TRUE(contains(packed.err, "warning[cache-unwritable]")) << packed.said();
}

TEST(Faults, Two_runs_into_one_folder_leave_whole_files_of_either) {
  const support::Scratch scratch;
  writers(scratch);
  const auto run = [&](const std::string& out) {
    return support::platewright({"pack", scratch / "pack.yaml", "--cache", scratch / "cache", "--out", scratch / out});
  };
  ASSERT_EQ(run("alone").code, 0);
  const auto expected = support::contents(scratch / "alone");
  for (int round = 0; round < 3; ++round) {
    fs::remove_all(scratch / "cache");
    std::vector<support::Finished> done(3);
    std::vector<std::thread> runs;
    for (auto& one : done) runs.emplace_back([&] { one = run("both"); });
    for (std::thread& thread : runs) thread.join();
    for (const auto& one : done) EXPECT_EQ(one.code, 0) << one.said();
    EXPECT_EQ(support::contents(scratch / "both"), expected);
  }
}

}  // namespace
