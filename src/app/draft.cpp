#include "app/draft.hpp"
