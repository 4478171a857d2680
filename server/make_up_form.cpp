#include "server/make_up_form.h"

#include <algorithm>
#include <set>

#include <nlohmann/json.hpp>

#include "catalog/catalog.h"
#include "catalog/embedded.h"
#include "job/check_words.h"
#include "job/make_up.h"
#include "job/service_wording.h"
#include "report/labels.h"
#include "server/amount_json.h"

namespace pumpwright::server {
namespace {

using nlohmann::json;

json ids_of(const Catalog& catalog, std::string_view table) {
  json out = json::array();
  if (const Table* found = catalog.table(table))
    for (const auto& row : found->rows)
      out.push_back(row.id());
  return out;
}

json grades_of(const Catalog& catalog) {
  std::set<std::string> grades;
  if (const Table* found = catalog.table("fastener-grades"))
    for (const auto& row : found->rows)
      grades.emplace(row.text("grade"));
  return grades;
}

// ISO 1629 names: the table also tells cures apart ("EPDM peroxide").
json elastomers_of(const Catalog& catalog) {
  std::set<std::string> names;
  if (const Table* found = catalog.table("elastomers"))
    for (const auto& row : found->rows)
      names.insert(row.id().substr(0, row.id().find(' ')));
  return names;
}

json lubricants_of(const Catalog& catalog) {
  json out = json::array();
  if (const Table* found = catalog.table("lubricants"))
    for (const auto& row : found->rows)
      out.push_back({{"word", row.id()}, {"title", {{"en", row.text("name")}, {"es", row.text("name_es")}}}});
  return out;
}

// Code letters with what they stand for: "B · carbon, resin impregnated".
json face_materials_of(const Catalog& catalog) {
  json out = json::array();
  if (const Table* found = catalog.table("face-materials"))
    for (const auto& row : found->rows)
      out.push_back({{"word", row.id()},
                     {"title",
                      {{"en", row.id() + " · " + std::string(row.text("name"))},
                       {"es", row.id() + " · " + std::string(row.text("name_es"))}}}});
  return out;
}

json titled(std::initializer_list<const char*> words, job::Text (*title)(std::string_view)) {
  json out = json::array();
  for (const auto* word : words)
    out.push_back({{"word", word}, {"title", text_json(title(word))}});
  return out;
}

job::Text standard_title(std::string_view standard) {
  return standard == "nema" ? job::Text{"inch frame (NEMA MG 1)", "bastidor en pulgadas (NEMA MG 1)"}
                            : job::Text{"metric frame (IEC 60072-1)", "bastidor métrico (IEC 60072-1)"};
}

job::Text hand_title(std::string_view hand) {
  return hand == "left" ? job::Text{"left hand", "a izquierdas"} : job::Text{"right hand", "a derechas"};
}

job::Text rotation_title(std::string_view rotation) {
  return rotation == "clockwise" ? job::Text{"clockwise", "horario"}
                                 : job::Text{"counter-clockwise", "antihorario"};
}

job::Text glycol_title(std::string_view glycol) {
  return glycol == "ethylene" ? job::Text{"ethylene glycol", "etilenglicol"}
                              : job::Text{"propylene glycol", "propilenglicol"};
}

job::Text back_title(std::string_view back) {
  if (back == "plain") return {"plain", "lisa"};
  if (back == "balance-holes") return {"balance holes and ring", "agujeros de equilibrio y anillo"};
  if (back == "back-vanes") return {"back vanes", "álabes traseros"};
  if (back == "ring-removed") return {"balance holes, ring removed", "agujeros de equilibrio, sin anillo"};
  return {"double suction", "doble aspiración"};
}

json impeller_backs() {
  json out = json::array();
  for (const auto& [word, back] : job::impeller_back_words())
    out.push_back({{"word", word}, {"title", text_json(back_title(word))}});
  return out;
}

json dimensions() {
  json out = json::array();
  for (const auto& dimension : job::dimension_names()) {
    const bool of_sleeve = dimension.name.rfind("sleeve_", 0) == 0;
    out.push_back({{"name", dimension.name},
                   {"title", text_json(report::dimension_title(dimension.name))},
                   {"asked_when", of_sleeve ? json{"sleeve"} : json::array()}});
  }
  return out;
}

const std::vector<job::SheetForm>& sheet_forms() {
  static const std::vector<job::SheetForm> forms =
      job::load_sheet_forms(files_under(embedded_catalog(), "sheets/"));
  return forms;
}

json field_view(const job::SheetField& field) {
  json choices = json::array(), items = json::array();
  for (const auto& choice : field.choices)
    choices.push_back({{"word", choice.word}, {"title", text_json(choice.title)}});
  for (const auto& item : field.items)
    items.push_back(field_view(item));
  json out{{"at", field.at},
           {"kind", job::word_of(field.kind)},
           {"title", text_json(field.title)},
           {"example", field.example},
           {"value", field.value},
           {"optional", field.optional},
           {"bare", field.bare},
           {"choices", choices},
           {"items", items},
           {"only_if", nullptr}};
  if (field.only_if) out["only_if"] = {{"at", field.only_if->at}, {"is", field.only_if->is}};
  return out;
}

json fields_view(const job::SheetForm& form, job::FieldPart part) {
  json out = json::array();
  for (const auto& field : form.fields)
    if (field.part == part) out.push_back(field_view(field));
  return out;
}

// Every bench test a job can hold, with what its make-up says of it.
json sheets() {
  json out = json::array();
  for (const auto& form : sheet_forms())
    out.push_back({{"sheet", job::word_in(job::sheet_words, form.sheet)},
                   {"title", text_json(form.title)},
                   {"fields", fields_view(form, job::FieldPart::make_up)}});
  return out;
}

json make_form() {
  const Catalog catalog = Catalog::load(embedded_catalog());
  return {
      {"driver",
       {{"standards", titled({"nema", "iec"}, standard_title)},
        {"frames", {{"nema", ids_of(catalog, "frames-nema")}, {"iec", ids_of(catalog, "frames-iec")}}},
        {"flanges", ids_of(catalog, "flanges-iec")},
        {"rotations", titled({"clockwise", "counter-clockwise"}, rotation_title)}}},
      {"seal",
       {{"kinds", titled({"elastomer-bellows", "o-ring-pusher", "conical-spring"}, report::seal_kind_title)},
        {"elastomers", elastomers_of(catalog)},
        {"lubricants", lubricants_of(catalog)},
        {"faces", face_materials_of(catalog)}}},
      {"service",
       {{"fluids", titled({"water", "water-glycol", "sea-water"}, job::wording::liquid_title)},
        {"glycols", titled({"ethylene", "propylene"}, glycol_title)}}},
      {"impeller", {{"backs", impeller_backs()}}},
      {"hands", titled({"right", "left"}, hand_title)},
      {"fastener",
       {{"threads", ids_of(catalog, "fastener-threads")},
        {"grades", grades_of(catalog)},
        {"conditions", ids_of(catalog, "nut-factor")}}},
      {"dimensions", dimensions()},
      {"sheets", sheets()}};
}

}  // namespace

json sheet_fields_view(job::SheetOf sheet, job::FieldPart part) {
  for (const auto& form : sheet_forms())
    if (form.sheet == sheet) return fields_view(form, part);
  return json::array();
}

const json& make_up_form() {
  static const json form = make_form();
  return form;
}

}  // namespace pumpwright::server
