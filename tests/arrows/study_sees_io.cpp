// A study turns cases into answers; where they are stored is none of its business.
#include "wingnose/io/tree_file.hpp"
