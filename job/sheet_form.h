// What a person is asked for a bench test's sheet, as catalog/data/sheets writes it: a field for every value,
// in every language. The page shows it; what is typed becomes the sheet's JSON.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "catalog/catalog.h"
#include "job/check.h"

namespace pumpwright::job {

// A fixed one is not asked: it goes into the sheet as it stands once something beside it was typed.
enum class FieldKind { quantity, text, number, word, flag, list, fixed };
enum class FieldPart { make_up, reading };

struct FieldChoice {
  std::string word;
  Text title;
};

// Asked only while another field holds one of these; a flag holds "yes" or "no".
struct AskedIf {
  std::string at;
  std::vector<std::string> is;
};

struct SheetField {
  FieldPart part = FieldPart::make_up;
  std::string at;  // JSON pointer into the sheet; of an item, into one element of its list, empty for the
                   // element itself
  FieldKind kind = FieldKind::quantity;
  Text title;
  std::string example;  // "150 psig"; may be empty
  std::string value;    // of a fixed one
  bool optional = false;
  bool bare = false;                 // a number without a unit takes that of the instrument it is read with
  std::vector<FieldChoice> choices;  // of a word
  std::vector<SheetField> items;     // of a list
  std::optional<AskedIf> only_if;
};

struct SheetForm {
  SheetOf sheet = SheetOf::pressure_hold;
  Text title;
  std::vector<SheetField> fields;
};

// Words of the data files and of the page's view: "quantity", …; "make-up", "reading".
std::string_view word_of(FieldKind kind);
std::string_view word_of(FieldPart part);

// Every form, by file name. Throws BadInput naming file, line and what would be valid.
std::vector<SheetForm> load_sheet_forms(std::span<const NamedBytes> files);

}  // namespace pumpwright::job
