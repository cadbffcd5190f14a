// Where the time of one poster goes: reading the figure, reading and placing,
// and all of it to each form of output.
#include <benchmark/benchmark.h>

#include <filesystem>
#include <string>

#include "platewright/engine.hpp"

namespace {

using platewright::SheetRequest;

SheetRequest poster(const std::string& figure, const std::string& ending) {
  const std::string folder = std::string(PW_SOURCE_DIR) + "/figures/demo/";
  SheetRequest request;
  request.figure = folder + figure + ".svg";
  request.terms = folder + figure + ".terms.yaml";
  request.set = "upper";
  request.kinds = {platewright::SheetKind::poster};
  request.paper = "letter";
  request.out = (std::filesystem::temp_directory_path() / ("platewright-bench." + ending)).string();
  return request;
}

void reading(benchmark::State& state, const std::string& figure) {
  for (auto _ : state) benchmark::DoNotOptimize(platewright::read_figure(poster(figure, "pdf").figure));
}

void read_and_place(benchmark::State& state, const std::string& figure) {
  const auto environment = platewright::usual_environment();
  for (auto _ : state)
    benchmark::DoNotOptimize(platewright::solve_layout(poster(figure, "pdf"), environment));
}

void whole(benchmark::State& state, const std::string& figure, const std::string& ending) {
  const auto environment = platewright::usual_environment();
  const SheetRequest request = poster(figure, ending);
  for (auto _ : state)
    if (!platewright::make_sheets(request, environment).ok()) state.SkipWithError("no sheet");
  std::filesystem::remove(request.out);
}

}  // namespace

int main(int argc, char** argv) {
  for (const std::string figure : {"heart", "child", "hand", "eye", "tooth", "honeybee"}) {
    benchmark::RegisterBenchmark((figure + "/read").c_str(), reading, figure)
        ->Unit(benchmark::kMillisecond);
    benchmark::RegisterBenchmark((figure + "/read_and_place").c_str(), read_and_place, figure)
        ->Unit(benchmark::kMillisecond);
    for (const std::string ending : {"pdf", "svg", "png"})
      benchmark::RegisterBenchmark((figure + "/whole_" + ending).c_str(), whole, figure, ending)
          ->Unit(benchmark::kMillisecond);
  }
  benchmark::Initialize(&argc, argv);
  benchmark::RunSpecifiedBenchmarks();
}
