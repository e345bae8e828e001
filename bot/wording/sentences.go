package wording

// sentences are all the sentences of the conversation, English and Spanish
// side by side, so that a language is a column and not code. Words in braces
// are filled in. The Spanish is our own rendering.
//
// Keys that begin with "role", "name", "method", "material", "term", "rule",
// "ask" and the like are put together with a value of the parser or of the
// answer; tests hold those against the values that there are.
var sentences = map[string]sentence{
	// Words between other words.
	"in":    {"in", "pulg"},
	"about": {"about {length}", "cerca de {length}"},
	"heavy": {"heavy", "un pelo más"},
	"light": {"light", "un pelo menos"},
	"or":    {"or", "o"},
	"and":   {"and", "y"},
	"none":  {"none", "no hay"},

	// A length in its role, as it is given and as it is figured.
	"role set":              {"set {length}", "desvío {length}"},
	"role roll":             {"roll {length}", "lateral {length}"},
	"role rise":             {"rise {length}", "subida {length}"},
	"role run":              {"run {length}", "avance {length}"},
	"role travel":           {"travel {length}", "diagonal {length}"},
	"role cut":              {"cut {length}", "corte {length}"},
	"role end_gap":          {"ends {length} apart", "puntas a {length}"},
	"role spacing":          {"spacing {length}", "separación {length}"},
	"role stagger":          {"stagger {length}", "escalón {length}"},
	"role fall":             {"fall {length}", "caída {length}"},
	"role length":           {"length {length}", "largo {length}"},
	"role start":            {"start {length} before it", "empieza {length} antes"},
	"role clearance":        {"clearance {length}", "holgura {length}"},
	"role reach":            {"reach {length}", "saliente {length}"},
	"role mark":             {"mark {length}", "marca {length}"},
	"role sum":              {"{length}", "{length}"},
	"role center_to_center": {"center to center {length}", "centro a centro {length}"},
	"role takeoff":          {"takeoff {length}", "descuento {length}"},
	"role face":             {"face {length}", "cara {length}"},
	"role depth":            {"depth {length}", "entrada {length}"},
	"role room":             {"room {length}", "espacio {length}"},
	"role stick_out":        {"sticks out {length}", "sale {length}"},
	"role gap_now":          {"ends now {length} apart", "puntas ahora a {length}"},
	"role overlap":          {"ends overlap {length}", "puntas traslapadas {length}"},
	"role reading":          {"tape reads {length}", "la cinta marca {length}"},
	"role upper_invert":     {"upper invert {length}", "nivel alto {length}"},
	"role lower_invert":     {"lower invert {length}", "nivel bajo {length}"},
	"role radius":           {"radius {length}", "radio {length}"},
	"role gap":              {"gap {length}", "luz {length}"},
	"role dry_fit":          {"dry fit {length}", "prueba en seco {length}"},
	"role obstacle":         {"obstacle {length} long", "obstáculo de {length}"},
	"role trim":             {"trim {length}", "recorte {length}"},
	"role pipe_length":      {"pipe {length} with the part in the hub", "tubo {length} con lo que entra en la campana"},
	"role ":                 {"{length}", "{length}"},
	"true set":              {"true set {length}", "desvío real {length}"},

	// What a role is called.
	"name set":              {"set", "desvío"},
	"name true set":         {"true set", "desvío real"},
	"name roll":             {"roll", "lateral"},
	"name rise":             {"rise", "subida"},
	"name run":              {"run", "avance"},
	"name travel":           {"travel", "diagonal"},
	"name cut":              {"cut", "corte"},
	"name end_gap":          {"end gap", "luz entre puntas"},
	"name spacing":          {"spacing", "separación"},
	"name stagger":          {"stagger", "escalón"},
	"name fall":             {"fall", "caída"},
	"name length":           {"length", "largo"},
	"name start":            {"start", "inicio"},
	"name clearance":        {"clearance", "holgura"},
	"name reach":            {"reach", "saliente"},
	"name mark":             {"mark", "marca"},
	"name sum":              {"result", "resultado"},
	"name center_to_center": {"center to center", "centro a centro"},
	"name takeoff":          {"takeoff", "descuento"},
	"name face":             {"center to face", "centro a cara"},
	"name depth":            {"socket depth", "entrada del tubo"},
	"name room":             {"room", "espacio"},
	"name stick_out":        {"stick-out", "lo que sale el tubo"},
	"name gap_now":          {"gap now", "luz de ahora"},
	"name overlap":          {"overlap", "traslape"},
	"name reading":          {"tape reading", "lectura de la cinta"},
	"name upper_invert":     {"upper invert", "nivel alto"},
	"name lower_invert":     {"lower invert", "nivel bajo"},
	"name radius":           {"radius", "radio"},
	"name gap":              {"gap at each joint", "luz en cada empalme"},
	"name dry_fit":          {"dry fit", "prueba en seco"},
	"name obstacle":         {"obstacle length", "largo del obstáculo"},
	"name angle":            {"angle", "ángulo"},
	"name roll_angle":       {"roll angle, from plumb", "giro desde el plomo"},
	"name grade":            {"grade", "pendiente"},
	"name lines":            {"number of lines", "número de líneas"},
	"name size":             {"size", "medida"},
	"name pipe":             {"pipe", "tubo"},
	"name joint":            {"joint", "empalme"},
	"name fitting":          {"fitting", "conexión"},
	"name trim":             {"trim", "recorte"},
	"name pipe_length":      {"pipe length", "largo del tubo"},
	"name ":                 {"that figure", "esa medida"},

	// The ways a tape is laid.
	"method center-to-center":   {"center to center", "de centro a centro"},
	"method outside-to-outside": {"outside to outside", "de fuera a fuera"},
	"method inside-to-inside":   {"inside to inside", "de dentro a dentro"},
	"method outside-to-inside":  {"outside to inside", "de fuera a dentro"},
	"method center-to-outside":  {"center to outside", "de centro a fuera"},
	"method center-to-inside":   {"center to inside", "de centro a dentro"},
	"method back-to-back":       {"back to back", "de espalda a espalda"},
	"method face-to-face":       {"face to face", "de cara a cara"},
	"method end-to-center":      {"end to center", "de punta a centro"},
	"method end-to-end":         {"end to end", "de punta a punta"},

	// Pipe and fittings.
	"material pvc":       {"PVC", "PVC"},
	"material abs":       {"ABS", "ABS"},
	"material cpvc":      {"CPVC", "CPVC"},
	"material copper":    {"copper", "cobre"},
	"material steel":     {"steel", "acero"},
	"material cast-iron": {"cast iron", "hierro fundido"},
	"material pex":       {"PEX", "PEX"},
	"schedule":           {"schedule {schedule}", "cédula {schedule}"},
	"pipe of size":       {"{size} pipe", "tubo de {size}"},
	"lines":              {"{number} lines", "{number} líneas"},
	"per foot":           {"{inches} per foot", "{inches} por pie"},
	"two":                {"two {fittings}", "dos {fittings}"},
	"street":             {"street {fitting}", "{fitting} macho-hembra"},
	"short sweep":        {"short {fitting}", "{fitting} de radio corto"},
	"long sweep":         {"long {fitting}", "{fitting} de radio largo"},
	"one bend":           {"{angle}", "codo de {angle}"},
	"many bend":          {"{angle}s", "codos de {angle}"},
	"one tee":            {"tee", "te"},
	"many tee":           {"tees", "tes"},
	"one sanitary tee":   {"sanitary tee", "te sanitaria"},
	"many sanitary tee":  {"sanitary tees", "tes sanitarias"},
	"one wye":            {"wye", "ye"},
	"many wye":           {"wyes", "yes"},
	"one combination":    {"combination wye and 1/8 bend", "ye con codo de 1/8"},
	"many combination":   {"combination wyes and 1/8 bends", "yes con codo de 1/8"},
	"one coupling":       {"coupling", "cople"},
	"many coupling":      {"couplings", "coples"},
	"one union":          {"union", "unión"},
	"many union":         {"unions", "uniones"},
	"one cap":            {"cap", "tapón"},
	"many cap":           {"caps", "tapones"},

	// Words that come with an answer, where Spanish has its own.
	"term threaded":                 {"threaded", "roscado"},
	"term solvent cement":           {"solvent cement", "cementado"},
	"term solder":                   {"soldered", "soldado con estaño"},
	"term butt-weld":                {"butt-weld", "soldado a tope"},
	"term socket-weld":              {"socket-weld", "soldado en copa"},
	"term no-hub":                   {"no-hub", "sin campana"},
	"term hub-and-spigot":           {"hub-and-spigot", "de campana y espiga"},
	"term crimp":                    {"crimp", "de anillo prensado"},
	"term pressure":                 {"pressure", "de presión"},
	"term sewer":                    {"sewer", "de alcantarillado"},
	"term pvc":                      {"PVC", "PVC"},
	"term abs":                      {"ABS", "ABS"},
	"term cpvc":                     {"CPVC", "CPVC"},
	"term copper":                   {"copper", "cobre"},
	"term steel":                    {"steel", "acero"},
	"term cast-iron":                {"cast iron", "hierro fundido"},
	"term pex":                      {"PEX", "PEX"},
	"term set":                      {"set", "desvío"},
	"term roll":                     {"roll", "lateral"},
	"term rise":                     {"rise", "subida"},
	"term run":                      {"run", "avance"},
	"term travel":                   {"travel", "diagonal"},
	"term cut":                      {"cut", "corte"},
	"term angle":                    {"angle", "ángulo"},
	"term takeoff":                  {"takeoff", "descuento"},
	"term metric PVC":               {"metric PVC", "PVC métrico"},
	"term PVC schedule 40":          {"PVC schedule 40", "PVC cédula 40"},
	"term PVC schedule 80":          {"PVC schedule 80", "PVC cédula 80"},
	"term PVC sewer":                {"PVC sewer", "PVC de alcantarillado"},
	"term metric copper":            {"metric copper", "cobre métrico"},
	"term threaded steel":           {"threaded steel", "acero roscado"},
	"term butt-weld steel":          {"butt-weld steel", "acero soldado a tope"},
	"term socket-weld steel":        {"socket-weld steel", "acero soldado en copa"},
	"term no-hub cast iron":         {"no-hub cast iron", "hierro fundido sin campana"},
	"term hub-and-spigot cast iron": {"hub-and-spigot cast iron", "hierro fundido de campana y espiga"},
	"term gentlest that fits":       {"the gentlest that fits", "el más suave que cabe"},
	"term hubs collide":             {"hubs collide", "las campanas chocan"},
	"term too long for the room":    {"too long for the room", "muy largo para el espacio"},
	"term cut from a 90":            {"elbows cut from a 90", "codos recortados de uno de 90"},
	"term no takeoff known":         {"no takeoff known", "sin descuento conocido"},
	"term no such fitting":          {"not made in this pipe", "no se hace en este tubo"},
	"term no such size":             {"not made in this size", "no se hace en esta medida"},
	"term takeoff out of range":     {"that takeoff can't be", "ese descuento no puede ser"},
	"term fittings collide":         {"hubs collide", "las campanas chocan"},
	"term 1/8 in":                   {"1/8", "1/8"},
	"term 1/16 in":                  {"1/16", "1/16"},
	"term 1 degree":                 {"1°", "1°"},
	"term center to stop":           {"center to stop", "del centro al tope"},
	"term face less depth":          {"face less depth", "cara menos entrada"},
	"term dry fit":                  {"dry fit", "prueba en seco"},
	"term the pattern is recalled to 4 in only":                               {"The pattern is recalled to 4 in only", "El modelo se recuerda solo hasta 4 pulg"},
	"term ASTM D2466 gives least lengths only, as recalled":                   {"ASTM D2466 gives least lengths only, as recalled", "ASTM D2466 da solo largos mínimos, según se recuerda"},
	"term ASTM D2467 gives least lengths only, as recalled":                   {"ASTM D2467 gives least lengths only, as recalled", "ASTM D2467 da solo largos mínimos, según se recuerda"},
	"term no fitting lengths of ASTM D3034 were found":                        {"No fitting lengths of ASTM D3034 were found", "No se hallaron largos de conexiones de ASTM D3034"},
	"term no fitting lengths of ASTM D2846 were found":                        {"No fitting lengths of ASTM D2846 were found", "No se hallaron largos de conexiones de ASTM D2846"},
	"term ASME B16.22 section 7: laying lengths cannot be established":        {"ASME B16.22 section 7: laying lengths cannot be established", "ASME B16.22 sección 7: no se pueden fijar largos de montaje"},
	"term EN 1254-1 gives no laying lengths, as recalled":                     {"EN 1254-1 gives no laying lengths, as recalled", "EN 1254-1 no da largos de montaje, según se recuerda"},
	"term center to the stop in the socket":                                   {"center to the stop in the socket", "del centro al tope de la copa"},
	"term center to the stop in the socket: Z of ISO 264":                     {"center to the stop in the socket, Z of ISO 264", "del centro al tope de la copa, Z de ISO 264"},
	"term center to the tube stop in the cup":                                 {"center to the tube stop in the cup", "del centro al tope de la copa"},
	"term center to end less thread makeup":                                   {"center to end less thread makeup", "del centro a la punta menos lo que entra la rosca"},
	"term center to face":                                                     {"center to face", "del centro a la cara"},
	"term center to the bottom of the socket":                                 {"center to the bottom of the socket", "del centro al fondo de la copa"},
	"term center to the plain end: D of CISPI 301":                            {"center to the plain end, D of CISPI 301", "del centro a la punta lisa, D de CISPI 301"},
	"term center to the hub seat: X of ASTM A74; to the end at the spigot: D": {"center to the hub seat, X of ASTM A74; at the spigot to its end, D", "del centro al asiento de la campana, X de ASTM A74; en la espiga hasta la punta, D"},
	"term center to the shoulder":                                             {"center to the shoulder", "del centro al hombro"},
	"term two decimals":                                                       {"two decimals", "dos decimales"},
	"term three decimals":                                                     {"three decimals", "tres decimales"},

	// The first line, where it is not simply a length in its role.
	"angle":         {"Angle {angle}", "Ángulo {angle}"},
	"with fittings": {"{line}, with two {fittings}", "{line}, con dos {fittings}"},
	"cut with":      {"Cut {length} with two {fittings}", "Corte {length} con dos {fittings}"},
	"grade":         {"Grade {grade}", "Pendiente {grade}"},
	"factor":        {"{from} to {to}: × {factor}", "de {from} a {to}: × {factor}"},
	"kept crew":     {"Kept for the crew: {fitting}, {pipe}, takeoff {length}", "Guardado para la cuadrilla: {fitting}, {pipe}, descuento {length}"},
	"kept":          {"Kept as yours: {fitting}, {pipe}, takeoff {length}", "Guardado como tuyo: {fitting}, {pipe}, descuento {length}"},

	// What was understood, and how.
	"repaired": {`Read "{wrote}" as {read}.`, `Leí "{wrote}" como {read}.`},
	"taken":    {`Took "{text}" as {read}, not {not}.`, `Tomé "{text}" como {read}, no {not}.`},

	// Two measurements of one thing.
	"unequal":         {"{first} and {second} are {apart} apart: measure again", "{first} y {second} difieren en {apart}: mide otra vez"},
	"unequal figured": {"{first}, but the other measurements make it {second}, {apart} apart: measure again", "{first}, pero las otras medidas dan {second}, difieren en {apart}: mide otra vez"},

	// A rolling offset.
	"roll angle":   {"Roll angle {angle} from plumb", "Giro {angle} desde el plomo"},
	"turn":         {"Turn the fitting {degrees}° up from level", "Gira la conexión {degrees}° arriba del nivel"},
	"up in across": {"{length} up in {ruler} across", "{length} de subida en {ruler} de lado"},
	"across in up": {"{length} across in {ruler} up", "{length} de lado en {ruler} de subida"},

	// Where the takeoff comes from.
	"takeoff":               {"Takeoff {length}", "Descuento {length}"},
	"takeoff each":          {"Takeoff {length} each", "Descuento {length} en cada punta"},
	"takeoff at hub":        {"Takeoff {length} at the hub of the one {fitting}", "Descuento {length} en la campana de un {fitting}"},
	"takeoff at spigot":     {"Takeoff {length} at the spigot of the other", "Descuento {length} en la espiga del otro"},
	"takeoff at":            {"Takeoff {length} at the {fitting}", "Descuento {length} en {fitting}"},
	"as you said":           {"as you said.", "como dijiste."},
	"yours":                 {"yours", "tuyo"},
	"yours on":              {"yours, {when}", "tuyo, {when}"},
	"crew's":                {"the crew's", "de la cuadrilla"},
	"crew's on":             {"the crew's, {when}", "de la cuadrilla, {when}"},
	"crew's by":             {"the crew's, set by {by}, {when}", "de la cuadrilla, lo puso {by}, {when}"},
	"none of that line":     {"You have measured none of {line} for this; any measured takeoff goes before the tables.", "No has medido ninguno de {line} para esto; un descuento medido va antes que las tablas."},
	"from memory":           {"pattern from memory", "modelo de memoria"},
	"second-hand":           {"seen in a summary of a standard, unchecked", "visto en un resumen de la norma, sin comprobar"},
	"from geometry":         {"a first figure from geometry", "primera cuenta por geometría"},
	"rough rule":            {"Rough rule: outside diameter × tangent of half the angle. {why}.", "Regla aproximada: diámetro exterior × tangente de medio ángulo. {why}."},
	"face less recalled":    {"face {face} less a depth of {depth} from memory. Say the depth: \"depth {depth}\".", "cara {face} menos una entrada de {depth} de memoria. Di la entrada: \"entrada {depth}\"."},
	"goes in":               {"The pipe goes in {depth} at each end: {source}. Check it against the fitting.", "El tubo entra {depth} en cada punta: {source}. Compáralo con la conexión."},
	"goes in about":         {"The pipe goes in about {depth} at each end: {source}, from memory. Measure it: \"depth {depth}\".", "El tubo entra cerca de {depth} en cada punta: {source}, de memoria. Mídelo: \"entrada {depth}\"."},
	"takeoff means":         {"Here takeoff is {means}. Source: {source}.", "Aquí el descuento es {means}. Fuente: {source}."},
	"cut from a 90":         {"an elbow cut down from a 90", "codo recortado de uno de 90"},
	"check it":              {"Check it against the fitting.", "Compárala con la conexión."},
	"measure yours":         {`Measure yours: "takeoff {takeoff}".`, `Mide la tuya: "descuento {takeoff}".`},
	"measure yours or face": {`Measure yours: "takeoff {takeoff}" or "face {face}".`, `Mide la tuya: "descuento {takeoff}" o "cara {face}".`},
	"common practice":       {"common practice", "práctica común"},
	"leave long":            {"Leave it long and trim, or measure the fitting.", "Déjalo largo y recorta, o mide la conexión."},
	"leave long by":         {"Leave it long and trim, or measure the fitting ({band}).", "Déjalo largo y recorta, o mide la conexión ({band})."},

	// How it can be built, and what was assumed.
	"gap":                  {"Gap {length} at each joint: {source}.", "Luz {length} en cada empalme: {source}."},
	"limit":                {"Hubs touch at a set of {length}.", "Las campanas se tocan con desvío {length}."},
	"taken as":             {"Taken as {took}", "Tomado como {took}"},
	"would be":             {"{name} would be {length}", "{name} sería {length}"},
	"say so if":            {"say so if it is {names}", "dilo si es {names}"},
	"handbook":             {"By the book ({name}): {figures}.", "Según el libro ({name}): {figures}."},
	"by the book":          {"That is by the book ({name}); in full: {figures}.", "Eso es según el libro ({name}); con cifras completas: {figures}."},
	"why handbook differs": {"They differ because the book rounds its multipliers.", "No salen iguales porque el libro redondea sus factores."},
	"handbook agrees":      {"On your tape that is the same.", "En tu cinta es lo mismo."},
	"throw":                {"{what} off by {off}: {moves}.", "{what} con error de {off}: {moves}."},
	"moves":                {"{what} moves {length}", "{what} cambia {length}"},

	// Kinds of ask.
	"bend no":       {"{bend}: no, {why}", "{bend}: no, {why}"},
	"to spare":      {"{length} to spare", "sobran {length}"},
	"short by":      {"short by {length}", "faltan {length}"},
	"does not fit":  {"does not fit", "no cabe"},
	"every line":    {"Travel, run and cut are the same on every line.", "Diagonal, avance y corte son iguales en cada línea."},
	"unstaggered":   {"Bent at one place they would close up to {length}.", "Dobladas en un mismo lugar se cerrarían a {length}."},
	"meets minimum": {"Meets {grade}, the least by {behind}; check with the inspector.", "Cumple {grade}, lo mínimo según {behind}; pregunta al inspector."},
	"below minimum": {"Under {grade}, the least by {behind}; check with the inspector.", "Menos de {grade}, lo mínimo según {behind}; pregunta al inspector."},
	"starts sooner": {"Line {number} bends {length} sooner", "La línea {number} dobla {length} antes"},
	"starts later":  {"Line {number} bends {length} later", "La línea {number} dobla {length} después"},
	"every grade":   {"{inches}, {percent}%, 1 in {ratio}", "{inches}, {percent}%, 1 en {ratio}"},
	"ordinates":     {"Marks from the face, round from the throat; the other half is the same:", "Marcas desde la cara, desde la garganta; la otra mitad es igual:"},
	"throat":        {"throat: {back}", "garganta: {back}"},
	"ordinate":      {"{eighth}/8 round ({arc}): {back}", "{eighth}/8 de vuelta ({arc}): {back}"},
	"back":          {"back ({arc}): {back}", "lomo ({arc}): {back}"},
	"findings":      {"Any one of these would explain it:", "Una sola de estas cosas lo explica:"},
	"finding":       {"{what} out by {length}", "{what} con error de {length}"},
	"finding each":  {"{what} out by {length} at each end", "{what} con error de {length} en cada punta"},
	"turns more":    {"fittings that turn {angle} too much", "conexiones que giran {angle} de más"},
	"turns less":    {"fittings that turn {angle} too little", "conexiones que giran {angle} de menos"},
	"lacking":       {"too short by {length}", "faltan {length}"},

	// Refusals.
	"went wrong":            {"Something went wrong here, and it was not you. Try it once more.", "Algo falló aquí, y no fuiste tú. Inténtalo otra vez."},
	"so far":                {"I read: {read}.", "Leí: {read}."},
	"nothing read":          {"I read no measurement in that.", "No leí ninguna medida ahí."},
	"one side":              {`I read "{subject}" of one pipe. To what of the other?`, `Leí "{subject}" de un tubo. ¿Hasta dónde del otro?`},
	"ways to measure":       {"Say center to center, outside to outside, inside to inside or outside to inside.", "Di de centro a centro, de fuera a fuera, de dentro a dentro o de fuera a dentro."},
	"unknown word":          {`I don't know "{subject}".`, `No conozco "{subject}".`},
	"no such size":          {"There is no {size} {pipe} pipe", "No hay tubo {pipe} de {size}"},
	"sizes around":          {"; {near}?", "; ¿{near}?"},
	"no such angle":         {"No fitting turns a line {subject}; an angle is more than 0° and at most 90°.", "Ninguna conexión gira {subject}; un ángulo es más de 0° y no pasa de 90°."},
	"bad number":            {`I can't read "{subject}" as a measurement. Write it like 12-5/8.`, `No puedo leer "{subject}" como medida. Escríbela como 12-5/8.`},
	"unclaimed":             {"I don't know what the {subject} is for: set, run, travel?", "No sé para qué es el {subject}: ¿desvío, avance, diagonal?"},
	"two readings":          {`"{subject}" can be read two ways. Which one? Send it back:`, `"{subject}" se puede leer de dos maneras. ¿Cuál? Mándala así:`},
	"two readings of it":    {"That can be read two ways. Which one? Send it back:", "Eso se puede leer de dos maneras. ¿Cuál? Mándala así:"},
	"contradiction":         {"There are two values for the {subject}. Which one holds?", "Hay dos valores para {subject}. ¿Cuál vale?"},
	"contradiction between": {"There are two values for the {subject}: {near}?", "Hay dos valores para {subject}: ¿{near}?"},
	"not figuring":          {"That is not one for the tape; I only figure pipe.", "Eso no es para la cinta; yo solo calculo tubo."},
	"too long":              {"That is more than I can read at once. One measurement a line, please.", "Es más de lo que puedo leer de una vez. Una medida por línea, por favor."},
	"did you mean":          {"Did you mean {near}?", "¿Quisiste decir {near}?"},
	"try":                   {"Try: 12 set 45s 2 pvc", "Prueba: 12 desvío codos de 45 2 pvc"},
	"collide":               {"collide", "chocan"},
	"these":                 {"These {fittings}", "Estos {fittings}"},
	"these fittings":        {"These fittings", "Estas conexiones"},
	"at a set":              {"at a set of {length}", "con desvío {length}"},
	"touch at":              {"hubs touch at {length} (rounded up).", "las campanas se tocan con {length} (hacia arriba)."},
	"bends clear":           {"{bends} clear at this set.", "{bends} libran con este desvío."},
	"takeoff would do":      {"A takeoff of {length} or less would work (rounded down).", "Un descuento de {length} o menos serviría (hacia abajo)."},
	"street would do":       {"A street fitting would work.", "Una conexión macho-hembra serviría."},
	"no such fitting":       {"There is no {subject}", "No hay {subject}"},
	"no such fitting in":    {"There is no {subject} in {pipe}", "No hay {subject} en {pipe}"},
	"there is":              {"; there is {near}.", "; hay {near}."},
	"no takeoff":            {`No takeoff is known for a {fitting} in {pipe}. Measure center to stop: "takeoff 1-3/8".`, `No se conoce descuento para {fitting} en {pipe}. Mide del centro al tope: "descuento 1-3/8".`},
	"bad takeoff":           {"A takeoff of {length} for a {fitting} in {pipe}? By its geometry it takes {least} to {most}. Measure again from the center to where the pipe stops; if it holds, send it once more and I keep it.", "¿Un descuento de {length} para {fitting} en {pipe}? Por su geometría lleva de {least} a {most}. Mide otra vez del centro a donde para el tubo; si es así, mándalo otra vez y lo guardo."},
	"bad takeoff at most":   {"A takeoff of {length} for a {fitting} in {pipe}? By its geometry it takes {most} at most. Measure again from the center to where the pipe stops; if it holds, send it once more and I keep it.", "¿Un descuento de {length} para {fitting} en {pipe}? Por su geometría lleva {most} cuando más. Mide otra vez del centro a donde para el tubo; si es así, mándalo otra vez y lo guardo."},
	"out of range":          {"{length} for a {fitting} in {pipe}; by its geometry it takes {least} to {most}", "{length} para {fitting} en {pipe}; por su geometría lleva de {least} a {most}"},
	"face in the socket":    {"A face of {face} lies inside the {depth} that the pipe goes in. Measure center to face again, or say the depth too: \"face 1-7/8 depth 5/8\".", "Una cara de {face} queda dentro de los {depth} que entra el tubo. Mide otra vez del centro a la cara, o di también la entrada: \"cara 1-7/8 entrada 5/8\"."},
	"bad measure":           {"I can't use {subject} for that. Give it center to center.", "No puedo usar {subject} para eso. Dámelo de centro a centro."},
	"not landing":           {"My own check failed: laid end to end, the pieces miss the line. I give no cut. Please send the words on.", "Mi propia prueba falló: puestas en fila, las piezas no llegan a la línea. No doy corte. Pasa el mensaje, por favor."},
	"no bend turns":         {"No stock bend turns {angle}.", "Ningún codo de línea gira {angle}."},
	"bends nearest":         {"{bends} come nearest.", "Los más cercanos: {bends}."},
	"no bend fits":          {"No stock bend fits that room.", "Ningún codo de línea cabe en ese espacio."},
	"figures disagree":      {"With {bend}s the {what} comes out {figured}, not {given}: measure again, or leave one of them out.", "Con codos de {bend} {what} sale {figured}, no {given}: mide otra vez, o quita una."},
	"angles differ":         {"These bends differ ({subject}), so the far line would not run parallel. An offset takes two alike.", "Estos codos son distintos ({subject}): la otra línea no quedaría paralela. Un desvío lleva dos iguales."},
	"too short":             {"That leaves no pipe between the fittings.", "No queda tubo entre las conexiones."},
	"not a number":          {"The {what} is not a number I can use.", "No puedo usar ese número para {what}."},
	"not positive":          {"The {what} has to be more than zero.", "La medida de {what} tiene que ser más de cero."},
	"longer than a mile":    {"The {what} comes to more than a mile.", "La medida de {what} pasa de una milla."},
	"angle range":           {"An angle is more than 0° and at most 90°.", "Un ángulo es más de 0° y no pasa de 90°."},
	"travel too short":      {"The travel has to be longer than the set and the run.", "La diagonal tiene que ser más larga que el desvío y el avance."},
	"no room":               {"There is no room there for these fittings.", "Ahí no hay espacio para estas conexiones."},
	"nothing to resolve":    {"At 90° there is no run, so the run says nothing of the set. Give the set.", "A 90° no hay avance, así que no dice nada del desvío. Dame el desvío."},
	"too steep":             {"A grade steeper than one in one is not a drain.", "Una pendiente de más de uno a uno no es un desagüe."},
	"too tight":             {"That radius is too tight for this pipe.", "Ese radio es muy cerrado para este tubo."},

	// The one question.
	"which":         {"Which {what}: {options}?", "¿Cuál {what}: {options}?"},
	"ask gap_now":   {`How far apart do the two ends stand now, clear between them? Say "ends are 9 apart", or "ends overlap 2".`, `¿Qué tanto hay ahora entre las dos puntas? Di "ends are 9 apart".`},
	"fall over run": {"Over the run the line falls {fall}: a rise taken between the two ends, not at one spot, has that in it.", "En el avance la línea cae {fall}: una subida medida entre las dos puntas, no en un solo lugar, ya lo incluye."},
	"ask length":    {`What is the {what}? Say it in inches: 12-5/8`, `¿Cuánto es {what}? Dilo en pulgadas: 12-5/8`},
	"ask angle":     {`What angle? Say "45s" or "22-1/2".`, `¿Qué ángulo? Di "45" o "22-1/2".`},
	"ask pipe":      {`What pipe? Say "2 pvc".`, `¿Qué tubo? Di "2 pvc".`},
	"ask size":      {`What size? Say "2" or "1-1/2".`, `¿Qué medida? Di "2" o "1-1/2".`},
	"ask joint":     {`How is it joined? Say "threaded", "glued", "welded".`, `¿Cómo se une? Di "roscado", "pegado", "soldado".`},
	"ask fitting":   {`What fitting? Say "45", "90", "street 45".`, `¿Qué conexión? Di "45", "90", "tee".`},
	"ask takeoff":   {`What takeoff? Measure from the center to where the pipe stops: "takeoff 1-3/8", or to the face: "face 2-1/16".`, `¿Qué descuento? Mide del centro a donde para el tubo: "descuento 1-3/8", o a la cara: "cara 2-1/16".`},
	"ask depth":     {`How deep does the pipe go in? Measure the socket and say it in inches: 3/4`, `¿Cuánto entra el tubo? Mide la copa y dilo en pulgadas: 3/4`},
	"ask lines":     {`How many lines? Say "3 lines".`, `¿Cuántas líneas? Di "3 líneas".`},
	"ask grade":     {`What grade? Say "1/4 per foot" or "2%".`, `¿Qué pendiente? Di "1/4 por pie" o "2%".`},
	"ask ":          {"What is it for? Say \"set 12\" or \"run 12\".", "¿Para qué es? Di \"desvío 12\" o \"avance 12\"."},

	// Steps.
	"no steps":              {"There is nothing to figure in that: it is looked up.", "Ahí no hay cuenta que hacer: se busca en la tabla."},
	"on the tape":           {"on the tape {length}", "en la cinta {length}"},
	"step mark end_gap":     {"Mark the standing pipes to end {length} apart, along the line.", "Marca los tubos fijos para que queden a {length}, a lo largo de la línea."},
	"step mark cut":         {"Mark the piece at {length} and cut it square.", "Marca la pieza a {length} y córtala a escuadra."},
	"step mark":             {"Mark the pipe at {length}: {what}", "Marca el tubo a {length}: {what}"},
	"step mark stagger":     {"Mark each next line's bend {length} sooner than the one before.", "Marca la curva de cada línea {length} antes que la anterior."},
	"step mark start":       {"Mark the first bend's center {length} before the obstacle.", "Marca el centro de la primera curva {length} antes del obstáculo."},
	"step mark fall":        {"Mark the low end {length} below the high end.", "Marca la punta baja {length} más abajo que la alta."},
	"step mark takeoff":     {"Mark the elbow all round, to {length} from its center, and cut on the line.", "Marca el codo alrededor, a {length} de su centro, y corta por la raya."},
	"step check":            {"Measure again, with the tape you cut by.", "Mide otra vez, con la misma cinta con que vas a cortar."},
	"step check offset":     {"Measure again, with the tape you cut by, and at a second place: the lines must run parallel.", "Mide otra vez, con la cinta con que vas a cortar, y en otro punto: las líneas deben ir paralelas."},
	"step check fit":        {"Measure again, with the tape you cut by, and at a second place: the lines must run parallel.", "Mide otra vez, con la cinta con que vas a cortar, y en otro punto: las líneas deben ir paralelas."},
	"step check fall":       {"Measure again, along the pipe and not along the floor.", "Mide otra vez, a lo largo del tubo y no del piso."},
	"step choose":           {"Choose the bends: two {bends}.", "Escoge las curvas: dos {bends}."},
	"step choose fit":       {"Choose the bends: two {bends}, the gentlest that fit.", "Escoge las curvas: dos {bends}, las más suaves que caben."},
	"step choose trim":      {"Choose the elbow to cut down from: a 90.", "Escoge el codo que se va a recortar: un 90."},
	"step dry fit piece":    {"Put it together dry, and check it center to center.", "Ármalo en seco y revísalo de centro a centro."},
	"step dry fit parallel": {"Put the bank together dry, and check the spacing on the diagonals too.", "Arma el grupo en seco y revisa la separación también en las diagonales."},
	"step dry fit around":   {"Put it together dry, and check how far it clears the obstacle.", "Ármalo en seco y revisa cuánto libra el obstáculo."},
	"step dry fit fall":     {"Put it together dry, and check the fall with a level.", "Ármalo en seco y revisa la caída con el nivel."},
	"step dry fit trim":     {"Set the elbow to the pipe and check the angle.", "Presenta el codo con el tubo y revisa el ángulo."},
	"step join trim":        {"Tack it, check the angle again, then weld.", "Puntéalo, revisa otra vez el ángulo y luego suelda."},
	"step dry fit":          {"Put it together dry, both fittings turned to the line, and check the set center to center.", "Ármalo en seco, las dos conexiones alineadas, y revisa el desvío de centro a centro."},
	"step join":             {"Make the joints for good, one end and then the other.", "Haz los empalmes definitivos, una punta y luego la otra."},

	"rule tape":            {"as the tape gave it", "como dio la cinta"},
	"rule to centers":      {"brought to center to center", "llevado a centro a centro"},
	"rule face less depth": {"center to face less the depth", "centro a cara menos la entrada"},
	"rule true set":        {"root of roll squared and rise squared", "raíz de lateral y subida al cuadrado"},
	"rule roll angle":      {"roll over rise", "lateral entre subida"},
	"rule true angle":      {"set over run", "desvío entre avance"},
	"rule set to travel":   {"set to travel", "de desvío a diagonal"},
	"rule set to run":      {"set to run", "de desvío a avance"},
	"rule run to travel":   {"run to travel", "de avance a diagonal"},
	"rule run to set":      {"run to set", "de avance a desvío"},
	"rule travel to set":   {"travel to set", "de diagonal a desvío"},
	"rule travel to run":   {"travel to run", "de diagonal a avance"},
	"rule run of one":      {"1 ÷ tangent of the angle", "1 ÷ tangente del ángulo"},
	"rule squares":         {"root of set squared and run squared", "raíz de desvío y avance al cuadrado"},
	"rule end gap":         {"run and a takeoff at each end", "avance más un descuento en cada punta"},
	"rule cut":             {"travel less a takeoff at each end", "diagonal menos un descuento en cada punta"},
	"rule from cut":        {"cut and a takeoff at each end", "corte más un descuento en cada punta"},
	"rule from end gap":    {"end gap less a takeoff at each end", "luz entre puntas menos un descuento en cada punta"},
	"rule pipe length":     {"laying length and the part in the hub", "largo útil más lo que entra en la campana"},
	"rule mark":            {"reading less what comes off", "lectura menos lo que se quita"},
	"rule trim":            {"what comes off", "lo que se quita"},
	"rule stagger":         {"spacing × tangent of half the angle", "separación × tangente de medio ángulo"},
	"rule smallest set":    {"reach and what is to be kept clear", "saliente más lo que debe librar"},
	"rule start":           {"the two parts together", "las dos partes juntas"},
	"rule reach part":      {"reach × cotangent", "saliente × cotangente"},
	"rule clear part":      {"to be kept clear ÷ sine", "lo que debe librar ÷ seno"},
	"rule keep clear":      {"clearance and half the pipe", "holgura más medio tubo"},
	"rule developed":       {"all the pipe along the drain", "todo el tubo a lo largo del desagüe"},
	"rule fall":            {"length × grade", "largo × pendiente"},
	"rule grade":           {"fall ÷ length", "caída ÷ largo"},
	"rule length":          {"fall ÷ grade", "caída ÷ pendiente"},
	"rule invert":          {"upper less the fall, lower and the fall", "el alto menos la caída, el bajo más la caída"},
	"rule half angle":      {"radius × tangent of half the angle", "radio × tangente de medio ángulo"},
	"rule arc":             {"radius × angle in radians", "radio × ángulo en radianes"},
	"rule dry fit":         {"set to travel, of what the dry fit showed", "de desvío a diagonal, de lo que dio la prueba"},
	"rule each end":        {"shared by the two ends", "repartido entre las dos puntas"},
	"rule arithmetic":      {"added up", "sumado"},
	"rule face to face":    {"an insertion at each end", "una entrada en cada punta"},
	"rule end to center":   {"one takeoff", "un descuento"},

	// For the ear.
	"ear feet":          {", that is $1 feet $2", ", o sea $1 pies $2"},
	"ear whole feet":    {", that is $1 feet", ", o sea $1 pies"},
	"ear inch":          {"inch", "pulgada"},
	"ear inches":        {"inches", "pulgadas"},
	"ear plus or minus": {"plus or minus", "más o menos"},
	"ear degrees":       {"degrees", "grados"},
	"ear times":         {"times", "por"},
	"ear percent":       {"percent", "por ciento"},
	"ear millimeters":   {"millimeters", "milímetros"},
	"ear minus":         {"minus", "menos"},
	"ear plus":          {"plus", "más"},
	"ear divided by":    {"divided by", "entre"},
	"ear point":         {"point", "punto"},
	"one over 2":        {"a half", "medio"},
	"one over 4":        {"a quarter", "un cuarto"},
	"one over 8":        {"an eighth", "un octavo"},
	"one over 16":       {"a sixteenth", "un dieciseisavo"},
	"one over 32":       {"a thirty-second", "un treintaidosavo"},
	"one over 64":       {"a sixty-fourth", "un sesentaicuatroavo"},
	"parts of 4":        {"{number} quarters", "{number} cuartos"},
	"parts of 8":        {"{number} eighths", "{number} octavos"},
	"parts of 16":       {"{number} sixteenths", "{number} dieciseisavos"},
	"parts of 32":       {"{number} thirty-seconds", "{number} treintaidosavos"},
	"parts of 64":       {"{number} sixty-fourths", "{number} sesentaicuatroavos"},

	// Who decides.
	"notice":      {"dogleg figures lengths. The local code, the inspector and the license decide.", "dogleg calcula largos. El código local, el inspector y la licencia deciden."},
	"no cautions": {"Nothing special for this one beyond the usual care.", "Nada especial para este, fuera del cuidado de siempre."},

	// The conversation itself.
	"greeting":      {"I figure pipe offsets: how long to cut the piece, and where. Text me as you would a mate:", "Calculo desvíos de tubo: a cuánto cortar la pieza, y dónde. Escríbeme como a un compañero:"},
	"help is there": {"help tells the rest.", "ayuda dice lo demás."},
	"help": {
		`12 set 45s 1-1/2 pvc
roll 8 rise 14 45s 3 abs
set 14 in 30 of room, 2 pvc
26 center to center, 90s, 3/4 copper
12 set 45s 2 pvc, ends are 9 apart
3 lines 8 apart, set 15 45s
around, reach 6, clear 1, 45s 2 pvc
22 ft of 3 in at 1/4 per foot
trim a 4 in weld 90 to 37
16-15/16 - 3
multiplier for 22-1/2
takeoff 2 pvc 45 is 1-1/8 (yours, kept)

After an answer:
same but 14 · with 22s · in abs
dry fit shows 12-1/4 · call it laundry
add laundry · list · done 2 · export
explain · undo · cautions · sticks 10 ft
jobs · takeoffs · metric on · spanish
practice · exam · glossary · forget me`,
		`desvío 12 codos de 45 1-1/2 pvc
lateral 8 subida 14 codos de 45 3 abs
desvío 14 espacio 30 2 pvc
26 centro a centro codos de 90 3/4 cobre
3 líneas separación 8 desvío 15 45
caída 22 pies a 1/4 por pie
16-15/16 - 3
multiplicador 22-1/2
descuento 2 pvc 45 1-1/8 (tuyo)

Después de una respuesta:
igual pero 14
explica · deshacer · trabajos
añadir lavandería · lista · hecha 2
tramos 10 pies · exportar
takeoffs · cautions
metric on · handbook two · inglés
practicar · examen · glosario
forget me`,
	},

	"talk welcome":              {"Any time.", "Cuando quieras."},
	"talk nothing to change":    {"There is nothing to change yet. Tell me the whole of it, like: 10 set 45s 2 pvc", "Todavía no hay nada que cambiar. Dímelo completo, así: desvío 10 codos de 45 2 pvc"},
	"talk nothing to explain":   {"There is nothing to explain yet. Ask me for a cut first.", "Todavía no hay nada que explicar. Pídeme un corte primero."},
	"talk nothing to undo":      {"There is no job to drop.", "No hay trabajo que quitar."},
	"talk nothing to cancel":    {"Nothing is waiting.", "No hay nada pendiente."},
	"talk canceled":             {"Dropped.", "Quitado."},
	"talk no drawing":           {"That one has no picture. explain gives the figuring step by step.", "Ese no tiene dibujo. explica da la cuenta paso a paso."},
	"talk steps button":         {"Steps", "Pasos"},
	"talk draw button":          {"Picture", "Dibujo"},
	"talk add button":           {"To the list", "A la lista"},
	"talk share button":         {"Share", "Compartir"},
	"talk undo button":          {"Undo", "Deshacer"},
	"talk no jobs":              {"No jobs yet.", "Todavía no hay trabajos."},
	"talk earlier jobs":         {"({number} earlier)", "({number} anteriores)"},
	"talk no such job":          {"There is no job {number}; jobs lists them.", "No hay trabajo {number}; trabajos los muestra."},
	"talk no job to name":       {"There is no such job to name. Ask me for a cut first.", "No hay trabajo que nombrar. Pídeme un corte primero."},
	"talk call it what":         {"Call it what? Like: call it laundry", "¿Qué nombre? Así: call it lavandería"},
	"talk dropped":              {"Dropped {what}", "Quitado {what}"},
	"talk takeoff of what":      {"Takeoff of which fitting? Like: takeoff 2 pvc 45 is 1-1/8", "¿Descuento de qué conexión? Así: descuento 2 pvc 45 1-1/8"},
	"talk takeoff of which end": {"The ends differ: {first} and {second}. Say which one, like: takeoff 2 pvc 45 is 1-1/8", "Las puntas son distintas: {first} y {second}. Di cuál, así: descuento 2 pvc 45 1-1/8"},
	"talk face less depth":      {"That is {face} to the face, less {depth} that the pipe goes in ({source}).", "Son {face} a la cara, menos {depth} que entra el tubo ({source})."},
	"talk as you said":          {"as you said", "como dijiste"},
	"talk no takeoffs":          {"None of your own yet. Measure a fitting and tell me: takeoff 2 pvc 45 is 1-1/8\nThree ways to measure one: how do I measure a takeoff?", "Todavía ninguno tuyo. Mide una conexión y dime: descuento 2 pvc 45 1-1/8\nTres maneras de medirlo: ¿cómo mido un descuento?"},
	"talk crew's takeoffs":      {"The crew's, for everyone here:", "De la cuadrilla, para todos aquí:"},
	"talk set by":               {"set by {by}", "lo puso {by}"},
	"talk in place of":          {"In place of {length}, {when}.", "En lugar de {length}, {when}."},
	"talk two takeoffs":         {"Two takeoffs for one fitting, the {fitting}: {first} and {second}. Which one holds? Send that one.", "Dos descuentos para una sola conexión, {fitting}: {first} y {second}. ¿Cuál vale? Manda ese."},
	"talk how to measure": {
		`Push the pipe home and pick one of three ways. Each is one message.

1. Center to stop. A straight-edge on each centerline: they cross at the center.
Measure from the cross to where the pipe stops. Send: takeoff 2 pvc 45 is 1-1/8

    \
     \  straight-edges
    --+-----------|====== pipe
      |<-takeoff->|
    center       stop

2. Face. Measure from the center to the fitting's face, and how deep the pipe goes in.
Takeoff is the one less the other. Send: 2 pvc 45 face 1-7/8 depth 3/4

    center      stop      face
      +-----------|=========|== pipe
      |<-takeoff->|<-depth->|
      |<------- face ------>|

3. Dry fit. Two alike on a piece of known cut, turned so that the ends run parallel.
Measure the set, center to center. Send: 2 pvc 45s: cut 12, dry fit 10-1/16

    ----+             -
         \  cut 12    | set
          \           | 10-1/16
           +----      -

Glued or soldered: to the stop. Threaded: made up tight, to the end of the pipe. Butt-weld and no-hub: to the end of the fitting; the gap is counted apart. For the crew: crew takeoff 2 pvc 45 is 1-1/8`,
		`Mete el tubo hasta el tope y elige una de tres maneras. Cada una es un mensaje.

1. Del centro al tope. Una regla sobre cada eje: se cruzan en el centro.
Mide del cruce a donde para el tubo. Manda: descuento 2 pvc 45 1-1/8

    \
     \  reglas
    --+-------------|====== tubo
      |<-descuento->|
    centro         tope

2. Cara. Mide del centro a la cara de la conexión, y cuánto entra el tubo.
El descuento es lo uno menos lo otro. Manda: 2 pvc 45 cara 1-7/8 entrada 3/4

    centro        tope       cara
      +-------------|==========|== tubo
      |<-descuento->|<-entrada>|
      |<-------- cara -------->|

3. Prueba en seco. Dos iguales en una pieza de corte conocido, con las puntas paralelas.
Mide el desvío de centro a centro. Manda: 2 pvc 45: corte 12, prueba en seco 10-1/16

    ----+             -
         \  corte 12  | desvío
          \           | 10-1/16
           +----      -

Pegado o soldado: hasta el tope. Roscado: apretado, hasta la punta del tubo. A tope y sin campana: hasta la punta de la conexión; la luz va aparte. Para la cuadrilla: cuadrilla descuento 2 pvc 45 1-1/8`,
	},
	"talk how to forget":   {"To drop one: forget takeoff 1", "Para quitar uno: forget takeoff 1"},
	"talk no such takeoff": {"You have no such takeoff; takeoffs lists yours.", "No tienes ese descuento; takeoffs muestra los tuyos."},
	"talk forgotten":       {"Forgotten: {what}", "Olvidado: {what}"},
	"talk forget what":     {"Forget what? A takeoff (forget takeoff 1), a job (forget job 3), or all of it (forget me).", "¿Olvido qué? Un descuento (forget takeoff 1), un trabajo (forget job 3) o todo (forget me)."},
	"talk forget really": {
		"All that I keep of yours goes, here and in every other chat: jobs, takeoffs, settings. It can't be undone. Send yes, or anything else to keep it. To have a copy first: export my data",
		"Se va todo lo tuyo, aquí y en cualquier otro chat: trabajos, descuentos, ajustes. No se puede deshacer. Manda sí, o cualquier otra cosa para guardarlo. Para una copia antes: exporta mis datos",
	},
	"talk data exported":     {"All that I keep of yours in this chat, as JSON.", "Todo lo tuyo que guardo en este chat, en JSON."},
	"talk export alone":      {"Others read along here. Ask me in a private chat, for what I keep of you there; whoever runs this bot can export the rest.", "Aquí leen otros. Pídelo en un chat privado, por lo que guardo de ti allí; quien lleva este bot puede exportar lo demás."},
	"talk all forgotten":     {"All that I kept of yours is gone: jobs, takeoffs, settings.", "Ya no guardo nada tuyo: ni trabajos, ni descuentos, ni ajustes."},
	"talk metric on":         {"Millimeters first from now on.", "Desde ahora, milímetros primero."},
	"talk metric off":        {"Inches first from now on.", "Desde ahora, pulgadas primero."},
	"talk handbook two":      {"Handbook figures from now on: multipliers to two decimals. exact turns it off.", "Desde ahora, cuentas de manual: factores con dos decimales. exact lo quita."},
	"talk handbook three":    {"Handbook figures from now on: multipliers to three decimals. exact turns it off.", "Desde ahora, cuentas de manual: factores con tres decimales. exact lo quita."},
	"talk handbook off":      {"Exact figures from now on.", "Desde ahora, cifras exactas."},
	"talk language set":      {"English from now on.", "De ahora en adelante, en español."},
	"talk in sixteenths":     {"Sixteenths from now on.", "Desde ahora, dieciseisavos."},
	"talk learning":          {"Thanks. From now on I keep what I don't understand of yours, without names or phone numbers, so that people can teach me. stop learning ends it and throws it away.", "Gracias. Desde ahora guardo lo que no te entiendo, sin nombres ni teléfonos, para que me lo puedan enseñar. deja de aprender lo termina y lo borra."},
	"talk not learning":      {"Nothing of yours is kept for learning any more, and what was is gone.", "Ya no guardo nada tuyo para aprender, y lo guardado está borrado."},
	"talk draw always":       {"A picture with every answer from now on. draw when asked turns it off.", "Desde ahora, un dibujo con cada respuesta. Se quita con dibujo si lo pido."},
	"talk draw asked":        {"Pictures only when you ask: draw.", "Dibujos solo si los pides: dibuja."},
	"talk hearing all":       {"From now on I answer every message here that asks for a figure. Telegram shows me all of them only if I am an admin, or my privacy mode is off. answer when asked turns it off.", "Desde ahora contesto aquí todo mensaje que pida una medida. Telegram me los muestra todos solo si soy administrador o si no tengo el modo de privacidad. Se quita con contesta si te llaman."},
	"talk hearing named":     {"I answer here when somebody speaks to me: by name, by a command, or by a reply.", "Aquí contesto cuando alguien me habla: por mi nombre, con una orden o respondiendo."},
	"talk only in groups":    {"That is for a group. Here I answer every message anyway.", "Eso es para un grupo. Aquí contesto todos los mensajes de todas formas."},
	"talk only for admins":   {"That is for an admin of this group to say.", "Eso lo decide un administrador de este grupo."},
	"talk in thirty-seconds": {"Thirty-seconds from now on.", "Desde ahora, treintaidosavos."},
	"talk talk on":           {"From now on I also say my answers, in a voice note. Talk off ends that.", "Desde ahora también digo mis respuestas en una nota de voz, las que son en inglés. Sin voz lo quita."},
	"talk talk off":          {"No more voice notes from me.", "Ya no mando notas de voz."},
	"talk can't talk":        {"I have no voice here. Answers are said aloud in Telegram, where flite and opus-tools are installed beside me.", "Aquí no tengo voz. Las respuestas se dicen en Telegram, donde flite y opus-tools están instalados junto a mí."},
	"talk no such setting":   {"I have no such setting. help lists them.", "No tengo ese ajuste. ayuda los muestra."},

	// Practice and the exam.
	"problem travel":  {"How long is the travel?", "¿De cuánto es la diagonal?"},
	"problem cut":     {"How long is the cut?", "¿A cuánto se corta?"},
	"problem end gap": {"How far apart do the standing pipes end?", "¿A qué distancia quedan las puntas fijas?"},
	"problem rolling": {"How long is the cut?", "¿A cuánto se corta?"},
	"problem piece":   {"How long is the cut, straight between them?", "¿A cuánto se corta, derecho entre las dos?"},
	"problem stagger": {"How much sooner does the second line's bend start?", "¿Cuánto antes dobla la segunda línea?"},
	"problem fall":    {"How much does it fall?", "¿Cuánto baja?"},
	"each end":        {"{what} at each end", "{what} en cada punta"},
	"kind travel":     {"travel", "diagonal"},
	"kind cut":        {"cut", "corte"},
	"kind end gap":    {"end gap", "luz entre puntas"},
	"kind rolling":    {"rolling", "rodado"},
	"kind piece":      {"straight piece", "pieza recta"},
	"kind stagger":    {"stagger", "escalón"},
	"kind fall":       {"fall", "caída"},
	"right":           {"Right. {key}.", "Bien. {key}."},
	"not yet":         {"Not yet.", "Todavía no."},
	"once more":       {"Once more, or skip.", "Otra vez, o saltar."},
	"it is":           {"It is {key}:", "Es {key}:"},

	"slip ":                      {"I can't tell how you came to that.", "No veo cómo saliste a eso."},
	"slip divided":               {"That comes of dividing. Multiply.", "Eso sale de dividir. Multiplica."},
	"slip one takeoff":           {"That has one takeoff. There are two fittings, so two takeoffs.", "Eso lleva un descuento. Son dos conexiones: dos descuentos."},
	"slip no takeoff":            {"That leaves the takeoffs out.", "A eso le faltan los descuentos."},
	"slip added the takeoffs":    {"That adds the takeoffs. For a cut they come off.", "Eso suma los descuentos. Para el corte se quitan."},
	"slip took the takeoffs off": {"That takes the takeoffs off. Between the ends they are added.", "Eso quita los descuentos. Entre puntas se suman."},
	"slip cosine's multiplier":   {"That is the multiplier from the run, 1 ÷ cosine. From the set it is 1 ÷ sine.", "Ese factor es el del avance, 1 ÷ coseno. Desde el desvío es 1 ÷ seno."},
	"slip run for travel":        {"That takes the run for the travel.", "Eso toma el avance por la diagonal."},
	"slip travel for run":        {"That takes the travel for the run.", "Eso toma la diagonal por el avance."},
	"slip no multiplier":         {"That leaves the multiplier out.", "A eso le falta el factor."},
	"slip roll and rise added":   {"That adds roll and rise. True set is the root of their squares.", "Eso suma lateral y subida. El desvío real es la raíz de sus cuadrados."},
	"slip roll alone":            {"That takes the roll alone. True set has the rise in it too.", "Eso toma solo el lateral. El desvío real lleva también la subida."},
	"slip rise alone":            {"That takes the rise alone. True set has the roll in it too.", "Eso toma solo la subida. El desvío real lleva también el lateral."},
	"slip inches for feet":       {"That takes inches for feet. The grade is for each foot.", "Eso toma pulgadas por pies. La pendiente es por pie."},
	"slip whole angle":           {"That takes the whole angle. A stagger wants half of it.", "Eso toma el ángulo entero. El escalón pide la mitad."},
	"slip two decimals":          {"That is a multiplier of two decimals, 1.41. Take three: 1.414. If your exam's key has two, say: handbook two", "Ese factor es de dos decimales, 1.41. Usa tres: 1.414. Si tu examen usa dos, di: handbook two"},

	"question":         {"Question {number} of {of}", "Pregunta {number} de {of}"},
	"exam begins":      {"Exam: {number} questions, {minutes} minutes. Send each figure as the tape reads. skip passes one over, stop ends it.", "Examen: {number} preguntas, {minutes} minutos. Manda cada medida como la da la cinta. saltar pasa una, parar lo termina."},
	"exam ends":        {"{right} of {number} right, in {time}.", "{right} de {number} bien, en {time}."},
	"time is up":       {"Time is up.", "Se acabó el tiempo."},
	"under a minute":   {"under a minute", "menos de un minuto"},
	"so many minutes":  {"{minutes} min", "{minutes} min"},
	"so many":          {"{right} of {asked}, {kind}", "{right} de {asked}, {kind}"},
	"missed question":  {"{number}. {kind}: you said {reply}, it is {key}.", "{number}. {kind}: dijiste {reply}, es {key}."},
	"skipped question": {"{number}. {kind}: skipped, it is {key}.", "{number}. {kind}: saltada, es {key}."},
	"goes over":        {"practice goes over the weak ones first.", "practicar repasa primero lo flojo."},
	"score":            {"Right at the first try:", "Bien a la primera:"},
	"no score":         {"No score yet. Say practice, or exam.", "Todavía no hay puntaje. Di practicar, o examen."},
	"no such bend":     {"There is practice with {bends}.", "Hay práctica con {bends}."},

	"talk no problem":       {"No problem is waiting. Say practice, or exam.", "No hay problema pendiente. Di practicar, o examen."},
	"talk first one has it": {"First right figure has it.", "Gana la primera medida correcta."},
	"talk exam alone":       {"An exam is for one alone. Ask me in a chat of our own.", "El examen es de uno solo. Pídemelo en nuestro chat."},
	"talk practice stopped": {"Stopped. score shows how you stand.", "Hasta aquí. puntaje dice cómo vas."},

	// The cut list.
	"talk list empty":        {"The list is empty. After an answer say: add laundry, second floor", "La lista está vacía. Después de una respuesta di: añadir lavandería, segundo piso"},
	"talk list full":         {"The list is full: it holds {number}. Drop some, or clear list.", "La lista está llena: caben {number}. Quita algunas, o vaciar lista."},
	"talk on the list":       {"On the list: {piece}", "En la lista: {piece}"},
	"talk still listed":      {"Still on the list as it was: {piece}", "Sigue en la lista como estaba: {piece}"},
	"talk sawn otherwise":    {"Piece {number} is marked done at {length}. Measure it.", "La pieza {number} está marcada como hecha a {length}. Mídela."},
	"talk nothing to add":    {"There is no cut to add. Ask me for one first, like: 12 set 45s 2 pvc", "No hay corte que añadir. Pídeme uno primero, así: 12 desvío codos de 45 2 pvc"},
	"talk no such piece":     {"There is no piece {number}; list shows them.", "No hay pieza {number}; lista las muestra."},
	"talk list below":        {"The cut list is further down.", "La lista de cortes está más abajo."},
	"talk dead button":       {"That button does nothing any more.", "Ese botón ya no hace nada."},
	"talk piece gone":        {"That piece is no longer on the list.", "Esa pieza ya no está en la lista."},
	"talk none open":         {"No piece on the list is open.", "No hay piezas abiertas en la lista."},
	"talk none of that pipe": {"No open piece on the list is of that pipe; list shows them.", "Ninguna pieza abierta es de ese tubo; lista las muestra."},
	"talk stock unread":      {"I read no stock length, saw and pipe in: {words}. Like: sticks 10 ft hacksaw", "No leo largo, sierra y tubo en: {words}. Así: tramos 10 pies segueta"},
	"talk remove what":       {"Remove what? A piece from the list: drop {number}. A job: remove job {number}.", "¿Qué quito? Una pieza de la lista: quitar {number}. Un trabajo: quitar trabajo {number}."},
	"talk no jobs of":        {"No job of: {words}. jobs lists the last ones.", "Ningún trabajo de: {words}. trabajos muestra los últimos."},
	"talk job unreadable":    {"Job {number} can be read but not figured anew. Tell me the whole of it.", "El trabajo {number} se puede leer, pero no calcular otra vez. Dímelo completo."},
	"cut list":               {"Cut list: {open} open, {done} done", "Lista de cortes: {open} abiertas, {done} hechas"},
	"list cleared":           {"List cleared. It had {open} open, {done} done.", "Lista vaciada. Tenía {open} abiertas, {done} hechas."},
	"about pieces":           {"Leave the \"about\" ones long and trim.", "Las que dicen \"cerca de\", déjalas largas y recorta."},
	"exported":               {"{list}. The table, and a sheet for the truck.", "{list}. La tabla, y una hoja para la troca."},
	"no pipe named":          {"No pipe named", "Sin tubo"},
	"one stick":              {"{pipe}: 1 stick of {stock}.", "{pipe}: 1 tramo de {stock}."},
	"no sticks":              {"{pipe}: nothing fits a stick of {stock}.", "{pipe}: nada cabe en un tramo de {stock}."},
	"fewest sticks":          {"{pipe}: {number} sticks of {stock}. Fewer can't do.", "{pipe}: {number} tramos de {stock}. Con menos no se puede."},
	"perhaps fewer sticks":   {"{pipe}: {number} sticks of {stock}. Not proven the fewest: {least} at least.", "{pipe}: {number} tramos de {stock}. No está probado que sean los menos: {least} al menos."},
	"stock unknown":          {"{pipe}: how long are the sticks? Like: sticks 10 ft", "{pipe}: ¿de cuánto son los tramos? Así: tramos 10 pies"},
	"stick":                  {"{number}) {cuts}; rest {rest}", "{number}) {cuts}; resto {rest}"},
	"over long":              {"#{number}, {length}, is longer than {stock}: couple it, or buy longer.", "#{number}, {length}, pasa de {stock}: usa un cople, o compra más largo."},
	"fittings needed":        {"Fittings, {pipe}: {fittings}", "Conexiones, {pipe}: {fittings}"},
	"shared fittings":        {"Two at each piece: one that joins two pieces counts once.", "Dos por pieza: la que une dos piezas cuenta una vez."},
	"kerf of saw":            {"Kerf {kerf} a cut, {saw} (common practice). Another: sticks 10 ft hacksaw", "Corte de sierra {kerf}, {saw} (práctica común). Otra: tramos 10 pies segueta"},
	"kerf said":              {"Kerf {kerf} a cut, as you said.", "Corte de sierra {kerf}, como dijiste."},
	"no kerf":                {"No kerf: {saw}.", "Sin corte de sierra: {saw}."},
	"packed long":            {"The \"about\" ones are packed long by what they may be out.", "Las que dicen \"cerca de\" van con lo que pueden variar de más."},
	"one stick in all":       {"1 stick", "1 tramo"},
	"sticks in all":          {"{number} sticks", "{number} tramos"},
	"to load":                {"To load", "Para cargar"},
	"feet":                   {"{number} ft", "{number} pies"},
	"saw tube cutter":        {"tube cutter", "cortatubos"},
	"saw hacksaw":            {"hacksaw", "segueta"},
	"saw band saw":           {"band saw", "sierra de cinta"},
	"saw reciprocating saw":  {"reciprocating saw", "sierra sable"},
	"saw miter saw":          {"miter saw", "ingleteadora"},
	"saw chop saw":           {"chop saw", "tronzadora"},
	"saw cutoff wheel":       {"cutoff wheel", "disco de corte"},

	// The glossary, and where multipliers come from.
	"glossary":           {"Ask for any of these, like: what is a takeoff?\n{words}", "Pregunta por cualquiera, así: ¿qué es un descuento?\n{words}"},
	"not in glossary":    {"I have no word for that. glossary lists those I have.", "No tengo esa palabra. glosario da las que tengo."},
	"why multiplier":     {"{factor} is {from} to {to} on {bends}s.", "{factor} va de {from} a {to} con codos de {bends}."},
	"why run of 45":      {"Say the set is 1. A 45 halves a square corner, so the run is 1 too.", "Pon que el desvío es 1. Un 45 parte la escuadra a la mitad: el avance también es 1."},
	"why run":            {"Say the set is 1. The run is 1 ÷ tan {angle} = 1 ÷ {tangent} = {run}.", "Pon que el desvío es 1. El avance es 1 ÷ tan {angle} = 1 ÷ {tangent} = {run}."},
	"why travel":         {"In a square corner travel² = set² + run²: √(1² + {run}²) = {travel}.", "En la escuadra diagonal² = desvío² + avance²: √(1² + {run}²) = {travel}."},
	"why ratio":          {"From {from} to {to}: {a} ÷ {b} = {factor}. Books round it.", "De {from} a {to}: {a} ÷ {b} = {factor}. Los libros lo redondean."},
	"why any size":       {"Big or small, the triangle keeps its shape: one number does for all.", "Grande o chico, el triángulo es igual: un número sirve para todos."},
	"no such multiplier": {"No bend has that multiplier. Try: explain why 1.414, or: multiplier for 45", "Ninguna curva tiene ese factor. Prueba: multiplicador de 45"},
}
