// Shell completions and the manual page, made from the command line's own
// description so that they never lag behind it.
#include <iostream>
#include <memory>
#include <string>
#include <vector>

#include "platewright/engine.hpp"
#include "platewright/paper.hpp"
#include "verb.hpp"

namespace platewright::cli {
namespace {

std::vector<const CLI::App*> verbs_of(const CLI::App& app) {
  std::vector<const CLI::App*> verbs;
  for (const CLI::App* verb : app.get_subcommands([](const CLI::App*) { return true; }))
    if (!verb->get_group().empty()) verbs.push_back(verb);
  return verbs;
}

std::vector<const CLI::Option*> options_of(const CLI::App& app) {
  std::vector<const CLI::Option*> options;
  for (const CLI::Option* option : app.get_options())
    if (!option->get_lnames().empty()) options.push_back(option);
  return options;
}

std::string long_name(const CLI::Option& option) { return "--" + option.get_lnames().front(); }

bool takes_value(const CLI::Option& option) { return option.get_items_expected_max() > 0; }

// The words that an option's value is one of, if they are few and known.
std::vector<std::string> values_of(const CLI::Option& option) {
  std::vector<std::string> values;
  const std::string name = option.get_lnames().front();
  if (name == "kind")
    for (const SheetKindInfo& info : sheet_kinds()) values.emplace_back(info.name);
  if (name == "paper")
    for (const Paper& paper : papers()) values.push_back(paper.name);
  if (name == "orientation") values = {"auto", "portrait", "landscape"};
  if (name == "format") values = {"pdf", "svg", "png"};
  if (name == "style") values = style_names(usual_environment());
  return values;
}

std::string joined(const std::vector<std::string>& words) {
  std::string all;
  for (const std::string& word : words) all += (all.empty() ? "" : " ") + word;
  return all;
}

// In single quotes, for a shell.
std::string shell_quoted(const std::string& text) {
  std::string out = "'";
  for (const char c : text) out += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return out + "'";
}

void bash(const CLI::App& app) {
  std::vector<std::string> names;
  for (const CLI::App* verb : verbs_of(app)) names.push_back(verb->get_name());
  std::cout << "# bash completion for platewright\n_platewright() {\n"
               "  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]}\n"
               "  case $before in\n";
  std::vector<std::string> done;
  for (const CLI::App* verb : verbs_of(app))
    for (const CLI::Option* option : options_of(*verb)) {
      const std::vector<std::string> values = values_of(*option);
      if (values.empty()) continue;
      if (std::find(done.begin(), done.end(), long_name(*option)) != done.end()) continue;
      done.push_back(long_name(*option));
      std::cout << "    " << long_name(*option) << ") COMPREPLY=($(compgen -W "
                << shell_quoted(joined(values)) << " -- \"$word\")); return;;\n";
    }
  std::cout << "  esac\n  case ${COMP_WORDS[1]} in\n";
  for (const CLI::App* verb : verbs_of(app)) {
    std::vector<std::string> options;
    for (const CLI::Option* option : options_of(*verb)) options.push_back(long_name(*option));
    std::cout << "    " << verb->get_name() << ") [[ $word == -* ]] && COMPREPLY=($(compgen -W "
              << shell_quoted(joined(options)) << " -- \"$word\"));;\n";
  }
  std::cout << "    *) [[ $COMP_CWORD == 1 ]] && COMPREPLY=($(compgen -W "
            << shell_quoted(joined(names))
            << " -- \"$word\"));;\n  esac\n}\ncomplete -o default -F _platewright platewright\n";
}

void zsh(const CLI::App& app) {
  std::cout << "#compdef platewright\n_platewright() {\n  local -a verbs\n  verbs=(\n";
  for (const CLI::App* verb : verbs_of(app))
    std::cout << "    " << shell_quoted(verb->get_name() + ":" + verb->get_description()) << "\n";
  std::cout << "  )\n  if (( CURRENT == 2 )); then _describe verb verbs; return; fi\n"
               "  case ${words[2]} in\n";
  for (const CLI::App* verb : verbs_of(app)) {
    std::cout << "    " << verb->get_name() << ") shift words; (( CURRENT-- )); _arguments";
    for (const CLI::Option* option : options_of(*verb)) {
      std::string spec = long_name(*option) + "[";
      for (const char c : option->get_description())
        if (c != '[' && c != ']' && c != ':') spec += c;
      spec += "]";
      if (takes_value(*option)) {
        const std::vector<std::string> values = values_of(*option);
        spec += values.empty() ? ":value:_files" : ":value:(" + joined(values) + ")";
      }
      std::cout << " " << shell_quoted(spec);
    }
    std::cout << " '*:file:_files';;\n";
  }
  std::cout << "  esac\n}\n_platewright \"$@\"\n";
}

void fish(const CLI::App& app) {
  std::cout << "# fish completion for platewright\n";
  for (const CLI::App* verb : verbs_of(app)) {
    std::cout << "complete -c platewright -n __fish_use_subcommand -f -a " << verb->get_name()
              << " -d " << shell_quoted(verb->get_description()) << "\n";
    for (const CLI::Option* option : options_of(*verb)) {
      std::cout << "complete -c platewright -n '__fish_seen_subcommand_from " << verb->get_name()
                << "' -l " << option->get_lnames().front() << " -d "
                << shell_quoted(option->get_description());
      const std::vector<std::string> values = values_of(*option);
      if (!values.empty())
        std::cout << " -x -a " << shell_quoted(joined(values));
      else if (takes_value(*option))
        std::cout << " -r";
      std::cout << "\n";
    }
  }
}

std::string troff(const std::string& text) {
  std::string out;
  bool start = true;
  for (const char c : text) {
    if (start && (c == '.' || c == '\'')) out += "\\&";
    if (c == '\\')
      out += "\\e";
    else if (c == '-')
      out += "\\-";
    else
      out += c;
    start = c == '\n';
  }
  return out;
}

void manual(const CLI::App& app) {
  std::cout << ".TH PLATEWRIGHT 1 \"\" \"platewright " << PW_VERSION << "\"\n"
            << ".SH NAME\nplatewright \\- label anatomical figures and print them\n"
            << ".SH SYNOPSIS\n.B platewright\n.I verb\n[options]\n.SH DESCRIPTION\n"
            << troff(app.get_description()) << "\n.SH VERBS\n";
  for (const CLI::App* verb : verbs_of(app)) {
    std::cout << ".SS " << verb->get_name() << "\n" << troff(verb->get_description()) << ".\n";
    for (const CLI::Option* option : verb->get_options()) {
      if (option->get_name() == "--help") continue;
      std::cout << ".TP\n.B " << troff(option->get_name()) << "\n"
                << troff(option->get_description()) << "\n";
    }
    std::cout << ".PP\n.nf\n" << troff(verb->get_footer()) << "\n.fi\n";
  }
  std::cout << ".SH EXIT STATUS\n0 done; 1 the input or the request is at fault, said on standard\n"
               "error with one finding each (file:line:column: error: what; what to do); 2 wrong "
               "usage.\n"
               ".SH ENVIRONMENT\n.TP\n.B PLATEWRIGHT_STYLES\nA folder searched first for styles "
               "and words.\n.TP\n.B SOURCE_DATE_EPOCH\nSeconds since 1970 that a PDF carries as "
               "its date; without it no date is written.\n";
}

}  // namespace

Verb add_completion(CLI::App& app) {
  auto shell = std::make_shared<std::string>();
  CLI::App* command =
      app.add_subcommand("completion", "Print a shell's completion script, or the manual page");
  command->add_option("SHELL", *shell, "bash, zsh, fish or man")
      ->required()
      ->check(CLI::IsMember({"bash", "zsh", "fish", "man"}));
  command->footer("Example:\n  platewright completion bash > ~/.local/share/bash-completion/completions/platewright");
  return {command, [shell, &app] {
            if (*shell == "bash") bash(app);
            if (*shell == "zsh") zsh(app);
            if (*shell == "fish") fish(app);
            if (*shell == "man") manual(app);
            return 0;
          }};
}

}  // namespace platewright::cli
