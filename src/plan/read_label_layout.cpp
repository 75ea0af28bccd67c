// SPDX-License-Identifier: MIT
#include "plan/read_label_layout.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "plan/table_reader.h"

namespace loopledger::plan {
namespace {

constexpr std::size_t kMaxLines = 20;
constexpr int kMaxWrap = 4;
constexpr int kMaxRank = 99;
constexpr std::string_view kBetweenParts = " · ";
constexpr std::size_t kBlankFrom = 4;  // underscores
constexpr Bounds<Length> kCapitals{Length::mm(1), Length::mm(30)};

void add_words(LabelPart& part, std::string_view words) {
  if (words.empty()) {
    return;
  }
  if (!part.empty() && part.back().kind == LabelPiece::Kind::words) {
    part.back().text += words;
    return;
  }
  part.push_back({LabelPiece::Kind::words, std::string(words)});
}

/// Reads the text of one part; faults are told at `node`.
class PartReader {
 public:
  PartReader(TableReader& reader, const Node& node, std::string_view key)
      : reader_(reader), node_(node), key_(key) {}

  LabelPart read(std::string_view text) {
    LabelPart part;
    while (!text.empty()) {
      const std::size_t at = text.find_first_of("{_");
      add_words(part, text.substr(0, at));
      text.remove_prefix(std::min(at, text.size()));
      if (!text.empty()) {
        text = text.front() == '{' ? field(part, text) : underscores(part, text);
      }
    }
    return part;
  }

 private:
  std::string_view field(LabelPart& part, std::string_view text) {
    const std::size_t end = text.find('}');
    if (end == std::string_view::npos) {
      reader_.problem("layout-field", fmt::format("{}: expected a '}}' behind '{{'", key_),
                      "such as {id}", node_.place);
      return {};
    }
    const std::string_view name = text.substr(1, end - 1);
    if (std::ranges::find(kLabelFields, name) == kLabelFields.end()) {
      const std::string_view near = nearest(name, kLabelFields);
      reader_.problem(
          "layout-field",
          fmt::format("{}: a label has no field {{{}}}", key_, shortened(printable(name), 40)),
          near.empty() ? fmt::format("fields are {}", either(kLabelFields))
                       : fmt::format("did you mean {{{}}}?", near),
          node_.place);
    }
    part.push_back({LabelPiece::Kind::field, std::string(name)});
    return text.substr(end + 1);
  }

  static std::string_view underscores(LabelPart& part, std::string_view text) {
    const std::size_t end = std::min(text.find_first_not_of('_'), text.size());
    if (end >= kBlankFrom) {
      part.push_back({LabelPiece::Kind::blank, {}});
    } else {
      add_words(part, text.substr(0, end));
    }
    return text.substr(end);
  }

  TableReader& reader_;
  const Node& node_;
  std::string_view key_;
};

std::vector<LabelPart> read_line_parts(TableReader& reader, std::string_view key) {
  const Node* const node = reader.find(key);
  const auto text = node != nullptr ? reader.text_of(*node, key, kMaxTextLength) : std::nullopt;
  std::vector<LabelPart> parts;
  if (!text) {
    return parts;
  }
  PartReader part(reader, *node, key);
  std::string_view rest = *text;
  for (std::size_t at = 0; at != std::string_view::npos;) {
    at = rest.find(kBetweenParts);
    parts.push_back(part.read(rest.substr(0, at)));
    rest.remove_prefix(at == std::string_view::npos ? rest.size() : at + kBetweenParts.size());
  }
  return parts;
}

template <class T, class B>
void read_into(TableReader& reader, std::string_view key, T& to, const B& bounds) {
  Placed<T> placed{.value = to, .place = {}};
  reader.read(key, placed, bounds);
  to = placed.value;
}

void read_into(TableReader& reader, std::string_view key, bool& to) {
  Placed<bool> placed{.value = to, .place = {}};
  reader.read(key, placed);
  to = placed.value;
}

LabelLine read_line(const Tree& tree, const Node& node, Diagnostics& problems) {
  LabelLine line;
  TableReader reader(tree, node, "a line", problems);
  reader.read("name", line.name, kMaxNameLength);
  line.parts = read_line_parts(reader, "show");
  line.otherwise = read_line_parts(reader, "or");
  read_into(reader, "capitals", line.capitals, kCapitals);
  read_into(reader, "least", line.least, kCapitals);
  read_into(reader, "fixed", line.fixed);
  read_into(reader, "bold", line.bold);
  read_into(reader, "badge", line.badge);
  read_into(reader, "wrap", line.wrap, Bounds<int>{1, kMaxWrap});
  read_into(reader, "rank", line.rank, Bounds<int>{1, kMaxRank});
  if (reader.find("name") == nullptr) {
    reader.missing("name", "what the line is, to be named when a label has no room for it");
  }
  if (reader.find("show") == nullptr) {
    reader.missing("show", "such as show = \"{mass} · {loop}\"");
  }
  reader.finish();
  return line;
}

}  // namespace

Result<LabelLayout> read_label_layout(std::string_view text, const std::string& file,
                                      const std::string& name) {
  auto tree = parse_tree(text, file);
  if (!tree) {
    return tree.diagnostics();
  }
  LabelLayout layout;
  layout.name = name;
  Diagnostics problems;
  TableReader reader(*tree, tree->root(), fmt::format("layout \"{}\"", name), problems);
  reader.read("text", layout.text);
  read_into(reader, "code_share", layout.code_share,
            Bounds<Share>{Share::ratio(0), Share::percent(80)});
  for (const Node* node : reader.list("lines", kMaxLines)) {
    if (node->type == Node::Type::table) {
      layout.lines.push_back(read_line(*tree, *node, problems));
    } else {
      reader.problem("plan-type", "lines: expected tables", "lines = [{ name = …, show = … }, …]",
                     node->place);
    }
  }
  if (layout.lines.empty() && !has_errors(problems)) {
    reader.missing("lines", "lines = [{ name = …, show = … }, …]");
  }
  reader.finish();
  add_source_lines(problems, file, std::string(text));
  if (has_errors(problems)) {
    return problems;
  }
  return {std::move(layout), std::move(problems)};
}

}  // namespace loopledger::plan
