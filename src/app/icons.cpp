#include "app/icons.hpp"
