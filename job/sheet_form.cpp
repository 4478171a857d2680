#include "job/sheet_form.h"

#include <algorithm>

#include "job/toml_words.h"

namespace pumpwright::job {
namespace {

constexpr Words<FieldKind, 7> kind_words{{{"quantity", FieldKind::quantity},
                                          {"text", FieldKind::text},
                                          {"number", FieldKind::number},
                                          {"word", FieldKind::word},
                                          {"flag", FieldKind::flag},
                                          {"list", FieldKind::list},
                                          {"fixed", FieldKind::fixed}}};
constexpr Words<FieldPart, 2> part_words{{{"make-up", FieldPart::make_up}, {"reading", FieldPart::reading}}};

std::string decode_pointer(const TomlReader& at) {
  std::string pointer = at.text("at");
  if (!pointer.starts_with('/')) at.refuse("at", pointer, "a JSON pointer such as /rule/name");
  return pointer;
}

std::vector<FieldChoice> decode_choices(const TomlReader& at) {
  std::vector<FieldChoice> out;
  for (const auto& choice : at.tables("choice")) {
    choice.allow_only({"word", "title"});
    out.push_back({choice.text("word"), toml_text(choice.table("title"))});
  }
  return out;
}

AskedIf decode_asked_if(const TomlReader& at) {
  at.allow_only({"at", "is"});
  return {decode_pointer(at), at.texts("is")};
}

SheetField decode_field(const TomlReader& at, FieldPart part, bool is_item) {
  at.allow_only(
      {"part", "at", "kind", "title", "example", "value", "optional", "bare", "choice", "item", "only_if"});
  SheetField field;
  field.part = part;
  field.at = is_item && at.text_or("at", "").empty() ? "" : decode_pointer(at);
  field.kind = one_of(at, "kind", kind_words);
  if (field.kind == FieldKind::fixed)
    field.value = at.text("value");
  else
    field.title = toml_text(at.table("title"));
  field.example = at.text_or("example", "");
  field.optional = at.flag_or("optional", false);
  field.bare = at.flag_or("bare", false);
  field.choices = decode_choices(at);
  for (const auto& item : at.tables("item"))
    field.items.push_back(decode_field(item, part, true));
  if (const auto asked = at.optional_table("only_if")) field.only_if = decode_asked_if(*asked);
  if (field.choices.empty() == (field.kind == FieldKind::word))
    at.refuse("choice", "", "choices for a word and for nothing else");
  if (field.items.empty() == (field.kind == FieldKind::list))
    at.refuse("item", "", "items for a list and for nothing else");
  return field;
}

SheetForm decode_form(const NamedBytes& file) {
  const toml::table root = parse_toml(file);
  const TomlReader at(root, std::string(file.name));
  at.allow_only({"sheet", "title", "field"});
  SheetForm form;
  form.sheet = one_of(at, "sheet", sheet_words);
  form.title = toml_text(at.table("title"));
  for (const auto& field : at.tables("field"))
    form.fields.push_back(decode_field(field, one_of(field, "part", part_words), false));
  return form;
}

}  // namespace

std::string_view word_of(FieldKind kind) {
  return word_in(kind_words, kind);
}

std::string_view word_of(FieldPart part) {
  return word_in(part_words, part);
}

std::vector<SheetForm> load_sheet_forms(std::span<const NamedBytes> files) {
  std::vector<SheetForm> out;
  out.reserve(files.size());
  for (const auto& file : files)
    out.push_back(decode_form(file));
  return out;
}

}  // namespace pumpwright::job
