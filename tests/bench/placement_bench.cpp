// How long the solver takes and how good it is, on seeded figures of 10 to 500
// labels, beside two baselines; ends with a Markdown table for DEVELOPERS.md.
//   placement_bench [--benchmark_filter=placement/60]
// Each size runs in a process of its own, so that its peak memory is its own.
// Times are the processor's, one thread, so that what else runs there matters less; the families are feasible at fill 0.45 to 0.75.
#include <benchmark/benchmark.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <ctime>
#include <map>
#include <random>
#include <variant>
#include <vector>

#include "baselines.hpp"
#include "place/cost.hpp"
#include "place/place.hpp"

namespace platewright::bench {
namespace {

// Like an atlas plate: targets in an ellipse between two columns, labels of one
// or two lines, some in groups, some with a side of their own.
place::Problem figure_of(int labels, int seed) {
  std::mt19937_64 engine(static_cast<std::uint64_t>(seed) * 1'000'003 + static_cast<std::uint64_t>(labels));
  const auto in = [&](double low, double high) {
    return low + (high - low) * static_cast<double>(engine() >> 11) * 0x1.0p-53;
  };
  place::Problem problem;
  double heights = 0;
  for (int i = 0; i < labels; ++i) {
    place::Label label;
    label.anchor = std::to_string(1000 + i);
    const double height = in(0, 1) < 0.7 ? 6 : 11;
    label.variants = {{in(15, 55), height, height / 2, 0}};
    heights += height + problem.rules.label_gap;
    if (in(0, 1) < 0.3) label.group = in(0, 1) < 0.5 ? "bones" : "vessels";
    problem.labels.push_back(label);
  }
  const double height = heights / 2 / in(0.45, 0.75), top = 20;
  problem.columns = {{Side::left, 70, top, top + height, 60}, {Side::right, 190, top, top + height, 60}};
  for (place::Label& label : problem.labels)
    for (int tries = 0;; ++tries) {
      const double u = in(-1, 1), v = in(-1, 1);
      const PagePoint p{130 + 48 * u, top + height * (0.5 + 0.46 * v)};
      bool fine = u * u + v * v < 1;
      for (const place::Label& other : problem.labels)
        if (!other.targets.empty() && tries < 500) fine = fine && distance(p, other.targets[0].points[0]) >= 2.5;
      if (!fine) continue;
      label.targets.push_back({{p}, 0});
      if (in(0, 1) < 0.1) label.preferred = p.x < 130 ? -1 : 1;
      break;
    }
  problem.detail = {{80, top, 100, height}, 10, 10, {}};
  for (int k = 0; k < 100; ++k) problem.detail.values.push_back(static_cast<float>(in(0, 1)));
  problem.weights.unit = std::hypot(100.0, height) / 100;
  return problem;
}

// What a child process tells its parent; plain numbers, so that it passes a pipe.
struct Numbers {
  int runs = 0, infeasible = 0, optimal = 0;
  double median = 0, p95 = 0, grid_gap_p95 = 0, continuous_gap_p95 = 0;  // seconds; shares
  double cost[3] = {0, 0, 0}, cross[3] = {0, 0, 0}, seconds[3] = {0, 0, 0};  // means: solver, y-order, forces
  double peak_mb = 0;
};

double share_of(std::vector<double> values, double share) {
  if (values.empty()) return 0;
  std::sort(values.begin(), values.end());
  const auto k = static_cast<std::size_t>(share * static_cast<double>(values.size() - 1) + 0.999);
  return values[std::min(k, values.size() - 1)];
}

double processor_seconds() {
  timespec now{};
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
  return static_cast<double>(now.tv_sec) + 1e-9 * static_cast<double>(now.tv_nsec);
}
double seconds_since(double start) { return processor_seconds() - start; }

Numbers measure(int labels, int runs) {
  Numbers numbers;
  std::vector<double> times, grid, continuous;
  for (int seed = 1; seed <= runs; ++seed) {
    const place::Problem problem = figure_of(labels, seed);
    double start = processor_seconds();
    const auto answer = place::solve(problem);
    times.push_back(seconds_since(start));
    ++numbers.runs;
    const auto* solution = std::get_if<place::Solution>(&answer);
    if (!solution) {
      ++numbers.infeasible;
      continue;
    }
    const Certificate& c = solution->certificate;
    numbers.optimal += c.status == SolveStatus::optimal;
    grid.push_back(c.gap);
    continuous.push_back(c.continuous_gap);
    const auto count = [&](int which, const std::vector<place::Placement>& placements, double seconds) {
      numbers.cost[which] += place::cost(problem, placements).total();
      numbers.cross[which] += crossings(problem, placements);
      numbers.seconds[which] += seconds;
    };
    count(0, solution->placements, times.back());
    start = processor_seconds();
    const auto stacked = y_order_stacking(problem);
    count(1, stacked, seconds_since(start));
    start = processor_seconds();
    const auto forced = force_directed(problem);
    count(2, forced, seconds_since(start));
  }
  const int solved = std::max(1, numbers.runs - numbers.infeasible);
  for (int which = 0; which < 3; ++which) {
    numbers.cost[which] /= solved;
    numbers.cross[which] /= solved;
    numbers.seconds[which] /= solved;
  }
  numbers.median = share_of(times, 0.5);
  numbers.p95 = share_of(times, 0.95);
  numbers.grid_gap_p95 = share_of(grid, 0.95);
  numbers.continuous_gap_p95 = share_of(continuous, 0.95);
  return numbers;
}

bool measure_apart(int labels, int runs, Numbers& numbers) {
  int ends[2];
  if (pipe(ends) != 0) return false;
  std::fflush(nullptr);
  const pid_t child = fork();
  if (child < 0) return false;
  if (child == 0) {
    close(ends[0]);
    const Numbers found = measure(labels, runs);
    const bool told = write(ends[1], &found, sizeof found) == static_cast<ssize_t>(sizeof found);
    _exit(told ? 0 : 1);
  }
  close(ends[1]);
  const bool heard = read(ends[0], &numbers, sizeof numbers) == static_cast<ssize_t>(sizeof numbers);
  close(ends[0]);
  int status = 0;
  rusage used{};
  if (wait4(child, &status, 0, &used) != child) return false;
  numbers.peak_mb = static_cast<double>(used.ru_maxrss) / 1024;
  return heard && WIFEXITED(status) && WEXITSTATUS(status) == 0;
}

std::map<int, Numbers> table;

void placement(benchmark::State& state) {
  const auto labels = static_cast<int>(state.range(0)), runs = static_cast<int>(state.range(1));
  for (auto _ : state) {
    Numbers numbers;
    if (!measure_apart(labels, runs, numbers)) {
      state.SkipWithError("the measuring process failed");
      break;
    }
    state.SetIterationTime(numbers.median);
    state.counters["p95_s"] = numbers.p95;
    state.counters["peak_MB"] = numbers.peak_mb;
    state.counters["optimal"] = numbers.optimal;
    state.counters["infeasible"] = numbers.infeasible;
    state.counters["grid_gap_p95"] = numbers.grid_gap_p95;
    state.counters["continuous_gap_p95"] = numbers.continuous_gap_p95;
    table[labels] = numbers;
  }
}

BENCHMARK(placement)
    ->Args({10, 40})->Args({20, 40})->Args({30, 40})->Args({60, 40})->Args({120, 20})->Args({500, 6})
    ->Iterations(1)->UseManualTime()->Unit(benchmark::kMillisecond);

void print_table() {
  std::puts("\n| labels | runs | median s | p95 s | peak MB | optimal | no placement | grid gap p95 | continuous gap p95 |");
  std::puts("|---|---|---|---|---|---|---|---|---|");
  for (const auto& [labels, n] : table)
    std::printf("| %d | %d | %.3f | %.3f | %.0f | %.0f %% | %d | %.2f %% | %.2f %% |\n", labels, n.runs, n.median,
                n.p95, n.peak_mb, 100.0 * n.optimal / std::max(1, n.runs), n.infeasible, 100 * n.grid_gap_p95,
                100 * n.continuous_gap_p95);
  std::puts("\n| labels | cost: solver | y-order | forces | crossings: solver | y-order | forces | mean s: solver | y-order | forces |");
  std::puts("|---|---|---|---|---|---|---|---|---|---|");
  for (const auto& [labels, n] : table)
    std::printf("| %d | %.1f | %.1f | %.1f | %.1f | %.1f | %.1f | %.3f | %.6f | %.4f |\n", labels, n.cost[0], n.cost[1],
                n.cost[2], n.cross[0], n.cross[1], n.cross[2], n.seconds[0], n.seconds[1], n.seconds[2]);
}

}  // namespace
}  // namespace platewright::bench

int main(int argc, char** argv) {
  benchmark::Initialize(&argc, argv);
  if (benchmark::ReportUnrecognizedArguments(argc, argv)) return 1;
  benchmark::RunSpecifiedBenchmarks();
  platewright::bench::print_table();
  return 0;
}
