#include "app/crank.hpp"
