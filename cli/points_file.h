// The points of a pump's test as a logger or a spreadsheet hands them over: a CSV file that the test names
// under "points_from", with the column and the unit of every quantity.
#pragma once

#include <string>

namespace pumpwright {

// The file `path` whose bytes are given, with the rows of its "test/points_from" as its "test/points"; as it
// is when it has none. An empty cell leaves its quantity out. Throws BadInput naming the file or the line
// that is wrong.
std::string with_points_read(const std::string& path, const std::string& bytes);

}  // namespace pumpwright
