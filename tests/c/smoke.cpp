// The same program as C++11, with <cmath> first, as C++ callers have it.
#include <cmath>
#include "smoke.c"
