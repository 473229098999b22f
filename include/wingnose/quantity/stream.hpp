// Answers of many cases that go somewhere chunk by chunk: what is known before anything is computed, and the columns,
// one row per case, that are filled as cases are answered.
#pragma once

#include "wingnose/quantity/tree.hpp"

#include <cstddef>
#include <functional>
#include <string>
#include <variant>
#include <vector>

namespace wingnose::quantity {

struct StreamColumn {
  std::string group;
  Array array; // without values; dims begin with "case", shape gives the length of a row of two dimensions
  enum class As { number, single_precision, small_number, text } as = As::number;
  std::size_t text_length = 0;                                              // bytes kept of a text
  std::function<std::variant<double, std::string>(std::size_t)> known = {}; // values known before anything is computed
};

struct Stream {
  Tree head; // attributes, and arrays that are there from the beginning
  std::vector<StreamColumn> columns;
  std::size_t count = 0; // cases
  std::string identity;  // all that decides the numbers: another text is other work
};

// Where the answers go.
class Sink {
public:
  struct Chunk {
    std::size_t index, begin, end; // cases [begin, end)
  };
  virtual ~Sink() = default;
  [[nodiscard]] virtual std::vector<Chunk> missing() const = 0; // chunks not complete, in order
  // rows of all cases of the chunk, laid out as the columns; it counts when this returns.
  virtual void write(const Chunk& chunk, const Tree& rows) = 0;
};

} // namespace wingnose::quantity
