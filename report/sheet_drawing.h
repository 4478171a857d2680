// A picture of what a bench test came to, drawn as job/sheet_picture.h describes it.
#pragma once

#include "job/sheet_picture.h"
#include "job/text.h"
#include "report/canvas.h"

namespace pumpwright::report {

// With its note beneath, at `width` points.
double sheet_picture_height(Canvas& canvas, double width, const job::SheetPicture& picture,
                            job::Language language);
void draw_sheet_picture(Canvas& canvas, Point at, double width, const job::SheetPicture& picture,
                        job::Language language);

}  // namespace pumpwright::report
