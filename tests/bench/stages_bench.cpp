// Where the time of one poster goes: reading the figure, reading and placing,
// and all of it to each form of output; of the demo's figures and of a made one
// of 950 kB with 72 regions. The first rows are the program as a process of its
// own, with its peak memory.
#include <benchmark/benchmark.h>

#include <algorithm>
#include <string>
#include <vector>

#include "platewright/engine.hpp"
#include "support/made_figure.hpp"
#include "support/process.hpp"
#include "support/scratch.hpp"

namespace {

using platewright::SheetRequest;

struct Subject {
  std::string name;
  std::string figure;  // paths
  std::string terms;
  std::string set;
  std::string paper;
};

SheetRequest poster(const Subject& subject, const std::string& out) {
  SheetRequest request;
  request.figure = subject.figure;
  request.terms = subject.terms;
  request.set = subject.set;
  request.kinds = {platewright::SheetKind::poster};
  request.paper = subject.paper;
  request.out = out;
  return request;
}

void reading(benchmark::State& state, const Subject& subject) {
  for (auto _ : state) benchmark::DoNotOptimize(platewright::read_figure(subject.figure));
}

void read_and_place(benchmark::State& state, const Subject& subject) {
  const auto environment = platewright::usual_environment();
  for (auto _ : state)
    benchmark::DoNotOptimize(platewright::solve_layout(poster(subject, "x.pdf"), environment));
}

void whole(benchmark::State& state, const Subject& subject, const std::string& out) {
  const auto environment = platewright::usual_environment();
  const SheetRequest request = poster(subject, out);
  for (auto _ : state)
    if (!platewright::make_sheets(request, environment).ok()) state.SkipWithError("no sheet");
}

void process(benchmark::State& state, const Subject& subject, const std::string& out) {
  long peak_kib = 0;
  for (auto _ : state) {
    const support::Finished done = support::platewright(
        {"sheet", subject.figure, "--terms", subject.terms, "--set", subject.set, "--kind",
         "poster", "--paper", subject.paper, "--out", out});
    if (done.code != 0) state.SkipWithError("no sheet");
    peak_kib = std::max(peak_kib, done.peak_kib);
  }
  state.counters["peak_MB"] = static_cast<double>(peak_kib) * 1024 / 1e6;
}

}  // namespace

int main(int argc, char** argv) {
  const support::Scratch scratch;
  std::vector<Subject> subjects;
  const std::string demo = std::string(PW_SOURCE_DIR) + "/figures/demo/";
  for (const std::string name : {"heart", "child", "hand", "eye", "tooth", "honeybee"})
    subjects.push_back({name, demo + name + ".svg", demo + name + ".terms.yaml", "upper", "letter"});
  struct Made {
    std::string name;
    support::FigureWish wish;
    std::vector<std::string> papers;
  };
  // The wide one is hard: its labels outgrow two columns.
  for (const Made& made :
       {Made{"round-72", {72, support::Outline::round, 1, true, 950'000}, {"letter", "a3", "a2"}},
        Made{"wide-72", {72, support::Outline::wide, 1, true, 950'000}, {"a3"}}}) {
    const support::MadeFigure figure = support::made_figure(made.wish);
    support::write(scratch / (made.name + ".svg"), figure.svg);
    support::write(scratch / (made.name + ".terms.yaml"), figure.terms);
    for (const std::string& paper : made.papers)
      subjects.push_back({made.name + "-" + paper, scratch / (made.name + ".svg"),
                          scratch / (made.name + ".terms.yaml"), "made", paper});
  }
  const auto add = [](const std::string& name, auto run, const auto&... arguments) {
    benchmark::RegisterBenchmark(name.c_str(), run, arguments...)
        ->Unit(benchmark::kMillisecond)
        ->UseRealTime();
  };
  // Processes first: a child's peak counts what its parent held when it was forked.
  for (const Subject& subject : subjects)
    add(subject.name + "/process", process, subject, scratch / "process.pdf");
  for (const Subject& subject : subjects) {
    add(subject.name + "/read", reading, subject);
    add(subject.name + "/read_and_place", read_and_place, subject);
    for (const std::string ending : {"pdf", "svg", "png"})
      add(subject.name + "/whole_" + ending, whole, subject, scratch / ("out." + ending));
  }
  benchmark::Initialize(&argc, argv);
  benchmark::RunSpecifiedBenchmarks();
}
