// What lies on the ground is there before anything rolls over it.
#include "wingnose/passage/history.hpp"
