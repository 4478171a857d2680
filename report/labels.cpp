#include "report/labels.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <span>
#include <vector>

namespace pumpwright::report {
namespace {

using job::Text;

struct Row {
  Label label;
  Text text;
};

const std::vector<Row>& rows() {
  static const std::vector<Row> table{
      {Label::build_record, {"Build record", "Registro de montaje"}},
      {Label::invented, {"Invented demonstration data", "Datos de demostración inventados"}},
      {Label::job, {"Job", "Trabajo"}},
      {Label::customer, {"Customer", "Cliente"}},
      {Label::pump, {"Pump", "Bomba"}},
      {Label::serial, {"Serial number", "Número de serie"}},
      {Label::came_in_for, {"Came in for", "Entró por"}},
      {Label::opened, {"Opened", "Abierto"}},
      {Label::last_entry, {"Last entry", "Última anotación"}},
      {Label::make_up, {"Make-up", "Configuración"}},
      {Label::driver, {"Driver", "Motor"}},
      {Label::shaft_up, {"shaft up on the bench", "eje hacia arriba en el banco"}},
      {Label::shaft_level, {"shaft level on the bench", "eje horizontal en el banco"}},
      {Label::seal, {"Seal", "Sello"}},
      {Label::seal_lubricant, {"fitted with {}", "montado con {}"}},
      {Label::mounted_on_sleeve, {"on a shaft sleeve", "sobre camisa de eje"}},
      {Label::mounted_on_shaft, {"on the bare shaft", "sobre el eje desnudo"}},
      {Label::fastener, {"Impeller fastener", "Fijación del impulsor"}},
      {Label::service, {"Service", "Servicio"}},
      {Label::speed, {"Speed", "Velocidad"}},
      {Label::not_stated, {"not stated", "sin indicar"}},
      {Label::verdicts, {"Verdicts", "Veredictos"}},
      {Label::all_pass, {"Every check passes.", "Todos los controles pasan."}},
      {Label::not_all_pass, {"Not every check passes.", "No todos los controles pasan."}},
      {Label::count_pass, {"pass", "pasan"}},
      {Label::count_fail, {"fail", "fallan"}},
      {Label::count_unproven, {"unproven", "sin probar"}},
      {Label::count_not_taken, {"not taken", "sin tomar"}},
      {Label::deviation_accepted, {"deviation accepted", "desviación aceptada"}},
      {Label::half_section, {"Half-section with checks", "Semisección con los controles"}},
      {Label::turns, {"turns", "gira"}},
      {Label::stands, {"stands", "fijo"}},
      {Label::size_assumed, {"size not given", "medida no dada"}},
      {Label::scale, {"Scale", "Escala"}},
      {Label::assumed_list,
       {"Not given, drawn in usual proportion: {}.", "No dadas, dibujadas en proporción usual: {}."}},
      {Label::set_aside_list,
       {"Given, but not to be drawn together with the rest: {}.",
        "Dadas, pero imposibles de dibujar junto con las demás: {}."}},
      {Label::schematic_note,
       {"Walls, fillets, vanes, bearing and volute are drawn in usual proportions.",
        "Paredes, radios, álabes, rodamiento y voluta se dibujan en proporciones usuales."}},
      {Label::verdict_table, {"Checks and verdicts", "Controles y veredictos"}},
      {Label::column_verdict, {"Verdict", "Veredicto"}},
      {Label::column_check, {"Check", "Control"}},
      {Label::column_reading, {"Reading as written, value", "Lectura tal como se anotó, valor"}},
      {Label::column_limit, {"Limit, who set it, source", "Límite, quién lo fija, fuente"}},
      {Label::column_uncertainty, {"Uncertainty", "Incertidumbre"}},
      {Label::no_limit, {"no limit known", "sin límite conocido"}},
      {Label::not_read, {"not taken", "sin tomar"}},
      {Label::confirmed_yes, {"yes", "sí"}},
      {Label::confirmed_no, {"no", "no"}},
      {Label::also_known, {"Set aside", "Descartado"}},
      {Label::settle, {"To settle it: {}", "Para decidirlo: {}"}},
      {Label::two_sigma,
       {"± is twice the standard uncertainty. Times are UTC.",
        "± es el doble de la incertidumbre típica. Las horas son UTC."}},
      {Label::margin, {"margin {}", "margen {}"}},
      {Label::conforms_with, {"conforms {}", "conforme {}"}},
      {Label::points_read, {"{} points", "{} puntos"}},
      {Label::guarded, {"with guard band", "con banda de guarda"}},
      {Label::simple,
       {"as read, instrument at least {} times as fine",
        "según lectura, instrumento al menos {} veces más fino"}},
      {Label::bench_tests, {"Tests on the bench", "Pruebas en el banco"}},
      {Label::bench_tests_note,
       {"What each test came to; ± is 95 % coverage.", "A qué llegó cada prueba; ± es cobertura del 95 %."}},
      {Label::seal_service, {"The seal in its service", "El cierre en su servicio"}},
      {Label::true_running, {"Which part is out", "Qué pieza está fuera"}},
      {Label::true_running_note,
       {"What the sweeps say together. What turns goes by degrees from the keyway, what stands by clock "
        "positions seen from "
        "the impeller end. A centre line drawn in red is that of a part.",
        "Lo que dicen los barridos juntos. Lo que gira va en grados desde el chavetero, lo fijo en "
        "posiciones de reloj "
        "vistas desde el lado del impulsor. La línea roja es el centro de una pieza."}},
      {Label::true_turning, {"What turns", "Lo que gira"}},
      {Label::true_standing, {"What stands", "Lo fijo"}},
      {Label::true_reading, {"{} of {}", "{} de {}"}},
      {Label::true_caption,
       {"to scale; what is off the axis is drawn {} times as large",
        "a escala; lo que se sale del eje va {} veces mayor"}},
      {Label::seal_service_note,
       {"Computed, not measured: the film between the faces at the conditions of the make-up, along the face "
        "from its "
        "inside to its outside.",
        "Calculado, no medido: la película entre las caras en las condiciones de la configuración, a lo "
        "largo de la cara "
        "de dentro afuera."}},
      {Label::face_film, {"film", "película"}},
      {Label::face_pressure, {"pressure of the liquid", "presión del líquido"}},
      {Label::face_summits, {"pressure of the summits in touch", "presión de las crestas en contacto"}},
      {Label::face_temperature, {"temperature", "temperatura"}},
      {Label::seal_margin,
       {"pressure at the seal over vapour pressure", "presión en el cierre sobre presión de vapor"}},
      {Label::seal_least_suction,
       {"suction pressure that would do for the seal", "presión de aspiración que basta para el cierre"}},
      {Label::seal_balance, {"balance ratio", "relación de equilibrio"}},
      {Label::seal_spring, {"spring force", "fuerza del muelle"}},
      {Label::seal_friction, {"friction torque", "par de fricción"}},
      {Label::seal_heat, {"heat of the faces", "calor de las caras"}},
      {Label::seal_hottest, {"hottest place of the faces", "lugar más caliente de las caras"}},
      {Label::seal_touch, {"carried by summits in touch", "llevado por crestas en contacto"}},
      {Label::seal_leak, {"leak", "fuga"}},
      {Label::sweeps, {"Sweeps", "Barridos"}},
      {Label::sweeps_note,
       {"The ring is the mean; departures from it are magnified as stated under each picture. Turning parts "
        "are "
        "laid out from their keyway, standing parts from the top, seen from the impeller end.",
        "El anillo es la media; las desviaciones se amplían como se indica bajo cada figura. Las piezas que "
        "giran se dibujan desde su chavetero; las fijas desde arriba, vistas desde el lado del impulsor."}},
      {Label::keyway, {"keyway", "chavetero"}},
      {Label::top, {"top", "arriba"}},
      {Label::from_impeller_end, {"seen from the impeller end", "visto desde el lado del impulsor"}},
      {Label::magnified, {"Departures × {}", "Desviaciones × {}"}},
      {Label::mean_circle, {"mean", "media"}},
      {Label::fitted_circle, {"fitted circle", "círculo ajustado"}},
      {Label::limit_band_tir, {"limit", "límite"}},
      {Label::high_spot,
       {"high spot, ± two standard uncertainties", "punto alto, ± dos incertidumbres típicas"}},
      {Label::limit_outside_picture,
       {"the limit lies outside the picture", "el límite queda fuera de la figura"}},
      {Label::high_spot_keyway, {"High spot {}° from the keyway", "Punto alto a {}° del chavetero"}},
      {Label::high_spot_clock,
       {"High spot at clock position {} ({}° from the top)",
        "Punto alto en la posición {} del reloj (a {}° desde arriba)"}},
      {Label::no_direction_mount,
       {"No direction claimed: nobody wrote down how the indicator sat.",
        "Sin dirección: no se anotó cómo estaba colocado el comparador."}},
      {Label::no_direction_uncertain,
       {"No high spot claimed: the centre can not be told from the axis.",
        "Sin punto alto: el centro no se distingue del eje."}},
      {Label::suspect, {"read again here", "volver a leer aquí"}},
      {Label::gap, {"gap", "hueco"}},
      {Label::tir, {"TIR", "TIR"}},
      {Label::eccentricity, {"Eccentricity", "Excentricidad"}},
      {Label::squareness, {"Squareness", "Perpendicularidad"}},
      {Label::limit, {"limit", "límite"}},
      {Label::no_points, {"No readings to draw.", "No hay lecturas que dibujar."}},
      {Label::chains, {"Stack-up", "Cadena de cotas"}},
      {Label::chain_result, {"Sum", "Suma"}},
      {Label::chain_window, {"Sum against its limit, × {}", "Suma frente a su límite, × {}"}},
      {Label::chain_magnified, {"Links, scale {}", "Eslabones, escala {}"}},
      {Label::chain_share, {"share of the doubt", "parte de la duda"}},
      {Label::chain_missing,
       {"The sum can not be formed yet: a link is missing.", "Aún no se puede sumar: falta un eslabón."}},
      {Label::replaced, {"Readings that were replaced", "Lecturas sustituidas"}},
      {Label::replaced_none, {"No reading was replaced.", "No se sustituyó ninguna lectura."}},
      {Label::replaced_by, {"replaced by {}", "sustituida por {}"}},
      {Label::before_remedy, {"read before the part was moved", "leída antes de mover la pieza"}},
      {Label::replaced_when, {"taken {} by {}", "tomada {} por {}"}},
      {Label::open_points, {"Open points", "Puntos abiertos"}},
      {Label::open_none, {"Nothing stands open.", "No queda nada abierto."}},
      {Label::deviations, {"Accepted deviations", "Desviaciones aceptadas"}},
      {Label::deviations_none, {"No deviation was accepted.", "No se aceptó ninguna desviación."}},
      {Label::holds, {"Hold points released", "Puntos de espera liberados"}},
      {Label::signatures, {"Signatures", "Firmas"}},
      {Label::signatures_note,
       {"Whoever signs has seen this record with the hash below.",
        "Quien firma ha visto este registro con la huella indicada abajo."}},
      {Label::technician, {"Technician", "Técnico"}},
      {Label::lead_hand, {"Lead hand", "Jefe de taller"}},
      {Label::name_initials, {"Name or initials", "Nombre o iniciales"}},
      {Label::date, {"Date", "Fecha"}},
      {Label::signature, {"Signature", "Firma"}},
      {Label::record_hash, {"Record hash", "Huella del registro"}},
      {Label::made_with, {"Plan made with", "Plan hecho con"}},
      {Label::catalog_digest, {"Catalog", "Catálogo"}},
      {Label::page_of, {"page {} of {}", "página {} de {}"}},
      {Label::subject_line, {"Build record of job {}: {}", "Registro de montaje del trabajo {}: {}"}},
      {Label::author_role, {"Pump shop technician", "Técnico de taller de bombas"}},
      {Label::role, {"Role", "Función"}},
      {Label::holds_none, {"No hold point was released.", "No se liberó ningún punto de espera."}},
      {Label::hold_line, {"released by {}, {}", "liberado por {}, {}"}},
      {Label::deviation_line, {"accepted by {}, {}", "aceptada por {}, {}"}},
      {Label::what_to_do, {"What to do: {}", "Qué hacer: {}"}},
      {Label::suction, {"suction {}", "aspiración {}"}},
      {Label::written_list, {"As written: {}", "Tal como se anotó: {}"}},
      {Label::too_many_to_list,
       {"{} readings; the record holds them all.", "{} lecturas; el registro las guarda todas."}},
      {Label::cut_short, {"… ({} more characters in the record)", "… ({} caracteres más en el registro)"}},
      {Label::seal_detail, {"The seal, enlarged", "El sello, ampliado"}},
      {Label::diameters, {"{} diameters", "{} diámetros"}},
      {Label::read_by, {"{} · {} · {}", "{} · {} · {}"}},
  };
  return table;
}

struct Named {
  std::string_view key;
  Text text;
};

Text find_in(std::span<const Named> table, std::string_view key) {
  const auto found = std::find_if(table.begin(), table.end(), [&](const Named& n) { return n.key == key; });
  if (found != table.end()) return found->text;
  return {std::string(key), std::string(key)};
}

const std::vector<Named>& place_table() {
  static const std::vector<Named> table{
      {"shaft-end", {"Shaft end", "Extremo del eje"}},
      {"mounting-face", {"Mounting face", "Cara de montaje"}},
      {"register", {"Register", "Centrador"}},
      {"shaft-seal-area", {"Shaft under the seal", "Eje bajo el sello"}},
      {"keyway", {"Key and keyway", "Chaveta y chavetero"}},
      {"sleeve", {"Sleeve", "Camisa"}},
      {"sleeve-bore", {"Sleeve bore", "Interior de la camisa"}},
      {"seat", {"Seat", "Asiento"}},
      {"seat-face", {"Seat face", "Cara del asiento"}},
      {"bracket-register", {"Bracket register", "Centrador del soporte"}},
      {"seal-head", {"Seal head", "Cabeza del sello"}},
      {"impeller-hub", {"Impeller hub", "Cubo del impulsor"}},
      {"impeller-eye", {"Impeller eye ring", "Anillo del ojo"}},
      {"impeller-face", {"Impeller face", "Cara del impulsor"}},
      {"fastener", {"Fastener", "Fijación"}},
      {"wear-ring", {"Wear ring", "Anillo de desgaste"}},
      {"casing", {"Casing", "Carcasa"}},
      {"gasket", {"Gasket", "Junta"}},
      {"nameplate", {"Nameplate", "Placa"}},
  };
  return table;
}

const std::vector<Named>& dimension_table() {
  static const std::vector<Named> table{
      {"shaft_diameter", {"shaft diameter", "diámetro del eje"}},
      {"shaft_length", {"shaft length", "longitud del eje"}},
      {"shaft_shoulder", {"shaft shoulder", "hombro del eje"}},
      {"register_diameter", {"register diameter", "diámetro del centrador"}},
      {"register_height", {"register height", "altura del centrador"}},
      {"face_diameter", {"mounting face diameter", "diámetro de la cara de montaje"}},
      {"sleeve_bore", {"sleeve bore", "interior de la camisa"}},
      {"sleeve_outside_diameter", {"sleeve outside diameter", "exterior de la camisa"}},
      {"sleeve_length", {"sleeve length", "longitud de la camisa"}},
      {"seal_size", {"seal size", "medida del sello"}},
      {"seal_head_outside_diameter", {"seal head diameter", "diámetro de la cabeza del sello"}},
      {"seal_working_length", {"seal working length", "longitud de trabajo del sello"}},
      {"seat_outside_diameter", {"seat diameter", "diámetro del asiento"}},
      {"seat_thickness", {"seat thickness", "espesor del asiento"}},
      {"seat_depth", {"seat depth", "profundidad del asiento"}},
      {"seat_bore", {"seat bore", "alojamiento del asiento"}},
      {"seal_chamber_bore", {"seal chamber bore", "diámetro de la cámara del sello"}},
      {"bracket_depth", {"bracket depth", "profundidad del soporte"}},
      {"bracket_outside_diameter", {"bracket diameter", "diámetro del soporte"}},
      {"impeller_diameter", {"impeller diameter", "diámetro del impulsor"}},
      {"impeller_width", {"impeller width", "ancho del impulsor"}},
      {"impeller_eye_diameter", {"impeller eye diameter", "diámetro del ojo"}},
      {"impeller_outlet_width", {"impeller outlet width", "ancho de salida del impulsor"}},
      {"hub_diameter", {"hub diameter", "diámetro del cubo"}},
      {"hub_length", {"hub length", "longitud del cubo"}},
      {"key_width", {"key width", "ancho de la chaveta"}},
      {"key_length", {"key length", "longitud de la chaveta"}},
      {"keyway_length", {"keyway length", "longitud del chavetero"}},
      {"gasket_thickness", {"gasket thickness", "espesor de la junta"}},
      {"wear_ring_bore", {"wear ring bore", "interior del anillo de desgaste"}},
      {"wear_ring_length", {"wear ring length", "longitud del anillo de desgaste"}},
      {"casing_depth", {"casing depth", "profundidad de la carcasa"}},
      {"suction_bore", {"suction bore", "diámetro de aspiración"}},
  };
  return table;
}

const std::vector<Named>& seal_table() {
  static const std::vector<Named> table{
      {"elastomer-bellows", {"elastomer bellows", "fuelle de elastómero"}},
      {"o-ring-pusher", {"O-ring pusher", "empuje con junta tórica"}},
      {"conical-spring", {"conical spring", "muelle cónico"}},
  };
  return table;
}

}  // namespace

const std::string& text_of(Label label, job::Language language) {
  const auto& table = rows();
  const auto found =
      std::find_if(table.begin(), table.end(), [&](const Row& row) { return row.label == label; });
  assert(found != table.end());
  return found->text.in(language);
}

Text place_title(std::string_view place) {
  return find_in(place_table(), place);
}

Text dimension_title(std::string_view dimension) {
  return find_in(dimension_table(), dimension);
}

Text seal_kind_title(std::string_view kind) {
  return find_in(seal_table(), kind);
}

}  // namespace pumpwright::report
