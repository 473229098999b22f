// Files hold named arrays; what was studied to fill them is none of their business.
#include "wingnose/study/run.hpp"
