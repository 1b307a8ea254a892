import type { BriefWords } from "../brief-words.ts";

/** The brief in Spanish, in the words of building sites in the Americas (from memory; no published list stands behind them). */
export const spanish: BriefWords = {
  title: "A qué altura colgar",
  unnamed: "Trabajo sin nombre",
  planOf: (area) => `Plano de ${area}, con la canalización que va debajo y lo que no se debe construir así.`,
  page: (number, count) => `Página ${number} de ${count}`,
  issued: (date, author, program) => `Emitido el ${date}${author && ` por ${author}`}, con el programa ${program}.`,
  rule: ({ code, edition, section, clearance, by, amended }) =>
    `${code}, edición ${edition}, ${section}${amended ? ", con enmiendas locales" : ""}: ${clearance} por debajo de la cubierta (${by || "no consta por decisión de quién"}).`,
  noRule: (edition) => `El programa no conoce el conjunto de reglas ${edition}.`,
  amended: (text) => `Enmienda, como consta en inglés: ${text}.`,
  why: "Los tornillos del techo atraviesan la cubierta desde arriba, ahora y cada vez que se repara el techo. Cuelgue todo por lo menos tan abajo de la superficie más baja de la cubierta como dice esta hoja, y nada dentro de las ondas.",
  measured:
    "La distancia se mide a plomo desde la superficie más baja de la cubierta (en lámina ondulada, la cara inferior de la onda baja) y vale en cualquier lugar debajo de ella. Si la cubierta no está donde dice el plano, cuenta la distancia, no la elevación. Junto al borde de un techo más bajo guarde la misma distancia de lado: por ahí salen sus tornillos.",
  rounded: (step) =>
    `Las distancias se redondean hacia arriba y las elevaciones hacia abajo, a ${step}: siempre hacia el lado seguro.`,
  roundedHere: (step) => `Todas las cifras están redondeadas hacia el lado seguro, a ${step}.`,
  contents: "Zonas de cubierta",
  nothingOutlined:
    "No hay ninguna zona de cubierta trazada en el trabajo, o no se conoce su conjunto de reglas: no se puede decir nada.",

  floorAbove: "Hay un piso encima, no un techo: la regla no pide distancia aquí.",
  notSettled: "No cuelgue nada aquí todavía: nadie ha decidido si esto es techo o tiene un piso encima.",
  notKnown: (missing) => `No cuelgue nada aquí todavía. Falta, como consta en inglés: ${missing}.`,
  outsideTheRule: "El conjunto de reglas de este trabajo no habla de esta cubierta. Otras reglas pueden hacerlo.",
  because: (reason) => ` Motivo, como consta: ${reason}.`,
  hangBelow: "No más alto que en esta página.",
  part: {
    roof: "donde es techo",
    "floor-above": "donde hay un piso encima",
    "not-settled": "donde no está decidido",
  },

  anything: (drop) => `Parte de arriba de cualquier cosa: por lo menos ${drop} debajo de la cubierta.`,
  level: (counted) => `La cubierta está a nivel. Las elevaciones son ${counted}.`,
  slope: (degrees, counted) =>
    `La cubierta tiene pendiente (${degrees}°). Las elevaciones son ${counted}, en su esquina más baja, y por eso son seguras en cualquier lugar debajo de ella.`,
  counted: (storey) =>
    storey === null ? "sobre el nivel de referencia del proyecto" : `sobre el piso terminado de ${storey}`,
  columns: { wiring: "Tubo o cable", bottom: "Abajo", centre: "Centro", top: "Arriba", drop: "Cubierta a centro" },
  notHigher: "No más alto que",
  corners: (counted, folded) =>
    `Centro más alto en cada esquina, ${counted}; ${folded ? "a lo largo de cada línea del plano" : "entre dos esquinas"} cambia parejo.`,
  corner: "Esquina",
  otherSizes: "Para las demás medidas use su distancia.",

  noGo: "Dibujado así ahora, y no se debe instalar así",
  noGoHere: "Aquí no hay nada dibujado demasiado alto.",
  elsewhere: "Fuera de las zonas de esta hoja",
  verdicts: {
    concealed: "oculto en las ondas",
    "entry-unprotected": "entrada sin protección",
    "too-close": "demasiado cerca",
    "cannot-tell": "no se puede saber",
    borderline: "en el límite",
    clear: "libre",
    "not-governed": "la regla no aplica",
  },
  through: "atraviesa la cubierta",
  grid: (reaches) =>
    `ejes ${reaches
      .map((reach) =>
        reach.is === "between"
          ? `${reach.from}–${reach.to}`
          : reach.is === "on"
            ? reach.line
            : `más allá de ${reach.line}`,
      )
      .join(" / ")}`,
  between: (from, to) => `${from} a ${to}`,
  at: (station) => `en ${station}`,
  remedy: (kind, by, types) =>
    ({
      lower: `Bájelo ${by}.`,
      move: `O muévalo de lado ${by}: pregunte hacia dónde.`,
      support: "Use un soporte que deje bastante: vea abajo.",
      "change-wiring": `Con ${types} puede quedarse, si el proyectista confirma la excepción.`,
      "record-fact": "Pregunte al proyectista: falta un dato.",
      settle: "Pregunte: nadie ha decidido si esto es techo.",
      outline: "Pregunte: la cubierta de arriba no está trazada.",
      protect: "Proteja los conductores donde entran: pregunte cómo.",
    })[kind],
  stopAndAsk: "Deténgase y pregunte.",
  or: (names) => names.join(" o "),

  supports: (need) =>
    `Soportes pegados a la cubierta: se necesitan ${need} encima del tubo. Coples, conectores y curvas suben más: agregue lo que ellos necesitan.`,
  support: (name, leaves, enough) => `${name}: deja ${leaves}, ${enough ? "bastante" : "muy poco"}.`,
  supportNames: {
    "strapped-tight": "Con abrazadera pegada a la cubierta",
    "shallow-strut": 'Canal perforado bajo, 13/16"',
    "deep-strut": 'Canal perforado alto, 1 5/8"',
  },

  noRoom: "Donde no hay espacio",
  noRoomAsk: "Deténgase y pregunte. Lo que puede ayudar, y deben decidir el proyectista y la autoridad competente:",
  lowerRoute: "Una ruta más baja.",
  floorRoute: (floors) => `Una ruta debajo de un piso: ${floors}.`,
  exception: (section, label) =>
    `Por excepción (${section || "agregada localmente"}), cuando consten los datos; en inglés: ${label}.`,
  adviceElsewhere: "El informe, en inglés, tiene además consejos sobre lo que alcanzan los tornillos del techo.",

  cautionsTitle: "Antes de actuar según esta hoja",
  cautions: [
    "Un consejo sacado de un plano no es una inspección. Verifique todas las medidas en la obra.",
    "Verifique con el código adoptado y sus enmiendas locales; decide la autoridad competente.",
    "El diseño y la instalación corresponden a personas con licencia.",
    "Corte la energía, bloquee y verifique antes de trabajar cerca de cables existentes.",
    "Nadie taladra un techo por lo que dice un plano.",
  ],
  shortCaution:
    "No es una inspección. Verifique en la obra y con el código adoptado; decide la autoridad competente. Nunca taladre un techo solo por lo que dice un plano.",
};
