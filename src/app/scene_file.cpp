#include "app/scene_file.hpp"
