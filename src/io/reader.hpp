// Fills a draft from a document by a schema: every key known, of the right type, in range, and not contradicting the
// choice its section has made.
#pragma once

#include "document.hpp"
#include "schema.hpp"

namespace wingnose::io {

void read_document(const Document& document, const Schema& schema, Draft& draft); // throws InputError

} // namespace wingnose::io
