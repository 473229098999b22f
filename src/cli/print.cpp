#include "print.hpp"

#include "wingnose/words/number.hpp"
#include "wingnose/words/visible.hpp"

#include <algorithm>
#include <cmath>
#include <ostream>
#include <sstream>
#include <string>
#include <vector>

namespace wingnose::cli {
namespace {

using quantity::Array;
using quantity::Detail;
using quantity::Group;
using quantity::Layout;
using quantity::Tree;

constexpr std::size_t line_width = 100;

// Columns a text takes on the screen: bytes that continue a UTF-8 character take none.
std::size_t width(const std::string& text) {
  return static_cast<std::size_t>(
      std::count_if(text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

std::string padded(const std::string& text, std::size_t to, bool left) {
  const std::size_t have = width(text);
  const std::string blanks(to > have ? to - have : 0, ' ');
  return left ? text + blanks : blanks + text;
}

std::string cell(const Array& a, std::size_t i) {
  return a.is_text ? visible(a.texts[i]) : fixed(a.numbers[i], a.decimals);
}

std::string heading(const Array& a) {
  const bool has_unit = !a.is_text && a.unit != "-";
  return visible(a.label) + (has_unit ? (a.label.empty() ? "" : " ") + a.unit : "");
}

bool printed(const Array& a) { return a.detail == Detail::printed; }

// --- rows ------------------------------------------------------------------------------------------------------------

bool is_row(const Array& a) {
  const bool single = a.dims.empty() && a.size() == 1;
  return single && printed(a) && (a.is_text || a.told_if_none || std::isfinite(a.numbers.front()));
}

void print_rows(std::ostream& out, const std::string& title, const std::vector<const Array*>& rows) {
  std::size_t label = 0, value = 0;
  for (const Array* row : rows) {
    label = std::max(label, width(row->label));
    value = std::max(value, row->is_text ? 0 : width(cell(*row, 0)));
  }
  out << visible(title) << '\n';
  for (const Array* row : rows) {
    const std::string text = cell(*row, 0);
    out << "  " << padded(visible(row->label), label, true) << "  "
        << (row->is_text ? text : padded(text, value, false));
    out << (row->is_text || row->unit == "-" || text == "none" ? "" : " " + row->unit) << '\n';
  }
  out << '\n';
}

void print_rows(std::ostream& out, const Group& group) {
  std::vector<std::string> blocks;
  for (const Array& a : group.arrays) {
    if (is_row(a) && std::find(blocks.begin(), blocks.end(), a.block) == blocks.end()) {
      blocks.push_back(a.block);
    }
  }
  for (const std::string& block : blocks) {
    std::vector<const Array*> rows;
    for (const Array& a : group.arrays) {
      if (is_row(a) && a.block == block) {
        rows.push_back(&a);
      }
    }
    const std::string title = group.title.empty() ? group.path : group.title;
    print_rows(out, block.empty() ? title : block, rows);
  }
}

// --- columns ---------------------------------------------------------------------------------------------------------

struct Table {
  std::vector<std::string> headings;
  std::vector<std::vector<std::string>> columns;
};

// The first column on the left, numbers on the right.
void print_table(std::ostream& out, const std::string& title, const Table& table) {
  std::vector<std::size_t> widths;
  for (std::size_t c = 0; c < table.headings.size(); ++c) {
    widths.push_back(width(table.headings[c]));
    for (const auto& text : table.columns[c]) {
      widths[c] = std::max(widths[c], width(text));
    }
  }
  const auto print = [&](const auto& text) {
    out << ' ';
    for (std::size_t c = 0; c < widths.size(); ++c) {
      out << (c == 0 ? " " : "  ") << padded(text(c), widths[c], c == 0);
    }
    out << '\n';
  };
  out << visible(title) << '\n';
  print([&](std::size_t c) { return table.headings[c]; });
  for (std::size_t r = 0; r < table.columns.front().size(); ++r) {
    print([&](std::size_t c) { return table.columns[c][r]; });
  }
  out << '\n';
}

// Name of one item of a dimension: its label where the tree has one, otherwise its number.
std::string item(const Tree& tree, const std::string& dim, std::size_t i) {
  const auto in_print = tree.texts(dim + "_label");
  const auto labels = in_print.empty() ? tree.texts(dim) : in_print;
  return i < labels.size() ? visible(labels[i]) : std::to_string(i + 1) + ".";
}

std::vector<std::string> column(const Array& a, std::size_t begin, std::size_t count, std::size_t stride) {
  std::vector<std::string> cells;
  for (std::size_t r = 0; r < count; ++r) {
    cells.push_back(cell(a, begin + r * stride));
  }
  return cells;
}

// A list is a column; a table over two dimensions a column for each item of the second.
void add_columns(const Tree& tree, const Array& a, Table& table) {
  if (a.shape.size() == 1) {
    table.headings.push_back(heading(a));
    table.columns.push_back(column(a, 0, a.shape[0], 1));
    return;
  }
  for (std::size_t c = 0; c < a.shape[1]; ++c) {
    const std::string name = heading(a), of = item(tree, a.dims[1], c);
    table.headings.push_back(name + (name.empty() ? "" : ", ") + of);
    table.columns.push_back(column(a, c, a.shape[0], a.shape[1]));
  }
}

void print_columns(std::ostream& out, const Tree& tree, const Group& group) {
  Table table;
  for (const Array& a : group.arrays) {
    if (printed(a) && !a.dims.empty() && a.shape.size() < 3) {
      add_columns(tree, a, table);
    }
  }
  if (!table.columns.empty() && !table.columns.front().empty()) {
    print_table(out, group.title, table);
  }
}

void print_tables(std::ostream& out, const Tree& tree, const Group& group) {
  for (const Array& a : group.arrays) {
    if (!printed(a) || a.shape.size() != 2 || a.size() == 0) {
      continue;
    }
    Table table{{a.dims[0]}, {{}}};
    for (std::size_t r = 0; r < a.shape[0]; ++r) {
      table.columns[0].push_back(item(tree, a.dims[0], r));
    }
    for (std::size_t c = 0; c < a.shape[1]; ++c) {
      table.headings.push_back(item(tree, a.dims[1], c));
      table.columns.push_back(column(a, c, a.shape[0], a.shape[1]));
    }
    print_table(out, a.label + (a.unit == "-" ? "" : ", " + a.unit), table);
  }
}

// --- sentences -------------------------------------------------------------------------------------------------------

// Bulleted, wrapped; nothing when there are none.
void print_sentences(std::ostream& out, const std::string& title, std::span<const std::string> sentences) {
  if (sentences.empty()) {
    return;
  }
  out << visible(title) << '\n';
  for (const auto& sentence : sentences) {
    std::istringstream words(visible(sentence));
    std::string word, line = "  -";
    while (words >> word) {
      if (width(line) + 1 + width(word) > line_width) {
        out << line << '\n';
        line = "   ";
      }
      line += ' ' + word;
    }
    out << line << '\n';
  }
  out << '\n';
}

void print_findings(std::ostream& out, const Tree& tree, Gravity gravity, const std::string& title) {
  std::vector<std::string> sentences;
  for (const Finding& f : of_gravity(quantity::findings_of(tree), gravity)) {
    sentences.push_back(sentence(f));
  }
  print_sentences(out, title, sentences);
}

void print(std::ostream& out, const Tree& tree, const Group& group) {
  switch (group.layout) {
  case Layout::hidden:
    break;
  case Layout::rows:
    print_rows(out, group);
    break;
  case Layout::columns:
    print_columns(out, tree, group);
    break;
  case Layout::tables:
    print_tables(out, tree, group);
    break;
  case Layout::sentences:
    for (const Array& a : group.arrays) {
      if (printed(a) && a.is_text) {
        print_sentences(out, group.title.empty() ? group.path : group.title, a.texts);
      }
    }
    break;
  }
}

} // namespace

void print(std::ostream& out, const Tree& tree) {
  bool first = true; // what the answer is about comes before what is gravest
  for (const Group& group : tree.groups()) {
    if (group.layout != Layout::hidden) {
      print(out, tree, group);
      if (first) {
        print_findings(out, tree, Gravity::grave,
                       "GRAVE: these numbers stand for something that cannot happen, or "
                       "hide what would");
      }
      first = false;
    }
  }
  print_findings(out, tree, Gravity::warning, "Warnings");
  print_findings(out, tree, Gravity::note, "Notes");
}

void print_stored(std::ostream& out, const std::filesystem::path& file, const Tree& tree, const Tree& told) {
  const auto row = [](std::string label, std::string value) {
    Array a;
    a.label = std::move(label);
    a.is_text = true;
    a.texts = {std::move(value)};
    return a;
  };
  std::vector<Array> about{row("stored in", file.generic_string()), row("kind", tree.kind())};
  for (const auto& [name, value] : tree.attributes) {
    if (name != "commit") {
      about.push_back(row(name == "version" ? "by wingnose" : name,
                          name == "version" ? value + " (commit " + tree.attribute("commit") + ")" : value));
    }
  }
  std::vector<const Array*> rows(about.size());
  std::transform(about.begin(), about.end(), rows.begin(), [](const Array& a) { return &a; });
  print_rows(out, tree.attribute("name"), rows);
  print(out, told);
  Table datasets{{"dataset", "dimensions", "unit"}, {{}, {}, {}}};
  for (const Group& group : tree.groups()) {
    for (const Array& a : group.arrays) {
      if (!a.dims.empty()) {
        std::string dims;
        for (std::size_t d = 0; d < a.dims.size(); ++d) {
          dims += (d > 0 ? ", " : "") + a.dims[d] + " " + std::to_string(a.shape[d]);
        }
        datasets.columns[0].push_back(visible(group.path.empty() ? a.name : group.path + "/" + a.name));
        datasets.columns[1].push_back(visible(dims));
        datasets.columns[2].push_back(a.is_text ? "text" : visible(a.unit));
      }
    }
  }
  print_table(out, "Datasets", datasets);
}

} // namespace wingnose::cli
