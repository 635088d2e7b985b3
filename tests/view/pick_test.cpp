#include "view/pick.hpp"
