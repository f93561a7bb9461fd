"""How people write parts: the generator's own lists, by language. Not the lexicon under test, and never read from it.

Common practice of the trade; no trade names. Names that leave several standards open stand in a list of their own
and are written beside the standard only.
"""

from __future__ import annotations

LANGUAGES = ("en", "de", "fr", "es", "it")

#: Names that say the kind for certain, given size and class.
NAMES: dict[str, dict[str, tuple[str, ...]]] = {
    "hex_screw": {
        "en": ("HEX SCREW FULL THREAD", "HEX HD SETSCREW", "HEXAGON HEAD SCREW, FULLY THREADED", "HEX HEAD SCR FT"),
        "de": ("SECHSKANTSCHRAUBE VOLLGEWINDE", "6KT-SCHR. VG", "SKT-SCHRAUBE MIT GEWINDE BIS KOPF"),
        "fr": ("VIS H ENTIEREMENT FILETEE", "VIS TETE HEXA ENT. FILETEE", "VIS TH FILETAGE TOTAL"),
        "es": ("TORNILLO HEXAGONAL ROSCA TOTAL", "TORN. CAB. HEX. ROSCA TOTAL"),
        "it": ("VITE TE TUTTO FILETTO", "VITE TESTA ESAGONALE FILETTO INTERO"),
    },
    "hex_bolt": {
        "en": ("HEX BOLT PARTIAL THREAD", "HEX BOLT PART THREADED", "HEXAGON BOLT, PARTIALLY THREADED"),
        "de": ("SECHSKANTSCHRAUBE MIT SCHAFT", "6KT-SCHR. TEILGEWINDE", "SKT-SCHR M. SCHAFT"),
        "fr": ("VIS H PARTIELLEMENT FILETEE", "VIS TETE HEXAGONALE FILETAGE PARTIEL"),
        "es": ("TORNILLO HEXAGONAL ROSCA PARCIAL", "TORN. CAB. HEX. ROSCA PARCIAL"),
        "it": ("VITE TE FILETTO PARZIALE", "VITE TESTA ESAGONALE GAMBO PARZIALE"),
    },
    "socket_cap": {
        "en": (
            "SHCS",
            "SOCKET HEAD CAP SCREW",
            "SKT HD CAP",
            "SOC HD CAP SCR",
            "SCREW, SOCKET CAP",
            "HEX SOCKET CAP SCREW",
        ),
        "de": (
            "ZYLINDERSCHRAUBE MIT INNENSECHSKANT",
            "ZYL.-SCHR. M. INNENSECHSKANT",
            "ZYL-SCHR ISK",
            "ZYLINDERSCHRAUBE I-6KT",
        ),
        "fr": ("VIS CHC", "VIS A TETE CYLINDRIQUE SIX PANS CREUX", "VIS CYL 6 PANS CREUX"),
        "es": ("TORNILLO CILINDRICO HEXAGONO INTERIOR", "TORN CIL HEX INT", "TORN. CAB. CILINDRICA HEX. INTERIOR"),
        "it": ("VITE TCEI", "TCEI", "VITE TESTA CILINDRICA ESAGONO INCASSATO"),
    },
    "socket_csk": {
        "en": ("SOCKET CSK SCREW", "SKT COUNTERSUNK SCREW", "FHCS", "CSK SKT SCR", "FLAT HEAD SOCKET CAP SCREW"),
        "de": ("SENKSCHRAUBE MIT INNENSECHSKANT", "SENKSCHR. ISK", "SENK-SCHR. M. INNENSECHSKANT"),
        "fr": ("VIS FHC", "VIS TETE FRAISEE SIX PANS CREUX"),
        "es": ("TORNILLO AVELLANADO HEXAGONO INTERIOR", "TORN AVELL HEX INT"),
        "it": ("VITE TSPEI", "VITE TESTA SVASATA ESAGONO INCASSATO"),
    },
    "socket_button": {
        "en": ("BHCS", "BUTTON HEAD SOCKET SCREW", "SKT BUTTON HD"),
        "de": ("LINSENSCHRAUBE ISK", "HALBRUNDSCHRAUBE MIT INNENSECHSKANT", "LINSENKOPFSCHRAUBE M. INNENSECHSKANT"),
        "fr": ("VIS BHC", "VIS TETE BOMBEE SIX PANS CREUX"),
        "es": ("TORNILLO ALOMADO HEX INT", "TORNILLO CABEZA ABOMBADA HEXAGONO INTERIOR"),
        "it": ("VITE TBEI", "VITE TESTA BOMBATA ESAGONO INCASSATO"),
    },
    "set_flat": {
        "en": ("SOCKET SET SCREW FLAT POINT", "GRUB SCREW FLAT PT", "SSS FLAT POINT"),
        "de": ("GEWINDESTIFT MIT KEGELKUPPE", "GEWINDESTIFT ISK KEGELSTUMPF"),
        "fr": ("VIS SANS TETE HC BOUT PLAT", "VIS STHC BOUT PLAT"),
        "es": ("PRISIONERO HEX INT PUNTA PLANA",),
        "it": ("GRANO STEI PUNTA PIANA", "GRANO ESTREMITA PIANA"),
    },
    "set_cone": {
        "en": ("SOCKET SET SCREW CONE POINT", "GRUB SCREW CONE PT"),
        "de": ("GEWINDESTIFT MIT SPITZE", "GEWINDESTIFT M. SPITZE ISK"),
        "fr": ("VIS SANS TETE HC BOUT POINTEAU", "VIS STHC BOUT CONIQUE"),
        "es": ("PRISIONERO HEX INT PUNTA CONICA",),
        "it": ("GRANO STEI PUNTA CONICA", "GRANO ESTREMITA CONICA"),
    },
    "set_dog": {
        "en": ("SOCKET SET SCREW DOG POINT", "GRUB SCREW DOG PT"),
        "de": ("GEWINDESTIFT MIT ZAPFEN", "GEWINDESTIFT M. ZAPFEN ISK"),
        "fr": ("VIS SANS TETE HC TETON", "VIS STHC BOUT TETON"),
        "es": ("PRISIONERO HEX INT CON PIVOTE", "PRISIONERO HEX INT PUNTA TETON"),
        "it": ("GRANO STEI ESTREMITA CILINDRICA", "GRANO PUNTA CILINDRICA"),
    },
    "set_cup": {
        "en": ("SOCKET SET SCREW CUP POINT", "GRUB SCREW CUP PT", "SSS CUP PT"),
        "de": ("GEWINDESTIFT MIT RINGSCHNEIDE", "GEWINDESTIFT ISK RINGSCHN."),
        "fr": ("VIS SANS TETE HC BOUT CUVETTE", "VIS STHC CUVETTE"),
        "es": ("PRISIONERO HEX INT PUNTA COPA", "PRISIONERO HEX INT PUNTA CONCAVA"),
        "it": ("GRANO STEI A COPPA", "GRANO PUNTA A COPPA"),
    },
    "thin_nut": {
        "en": ("HEX THIN NUT", "JAM NUT HEX", "HALF NUT HEX", "THIN NUT"),
        "de": ("SECHSKANTMUTTER NIEDRIGE FORM", "FLACHE 6KT-MUTTER", "NIEDRIGE MUTTER 6KT"),
        "fr": ("ECROU H BAS", "ECROU HEXAGONAL BAS"),
        "es": ("TUERCA HEXAGONAL BAJA", "TUERCA HEX. BAJA"),
        "it": ("DADO ESAGONALE BASSO", "DADO BASSO"),
    },
    "high_nut": {
        "en": ("HEX NUT HIGH", "HEX NUT STYLE 2", "HIGH HEX NUT"),
        "de": ("SECHSKANTMUTTER HOHE FORM", "HOHE 6KT-MUTTER"),
        "fr": ("ECROU H HAUT", "ECROU HEXAGONAL HAUT"),
        "es": ("TUERCA HEXAGONAL ALTA",),
        "it": ("DADO ESAGONALE ALTO", "DADO ALTO"),
    },
    "flange_nut": {
        "en": ("HEX FLANGE NUT", "FLANGE NUT", "NUT, HEX, FLANGED"),
        "de": ("SECHSKANTMUTTER MIT FLANSCH", "FLANSCHMUTTER", "6KT-MU M. FLANSCH"),
        "fr": ("ECROU H A EMBASE", "ECROU A EMBASE"),
        "es": ("TUERCA HEXAGONAL CON BRIDA", "TUERCA CON VALONA"),
        "it": ("DADO ESAGONALE FLANGIATO", "DADO FLANGIATO"),
    },
    "lock_nut": {
        "en": ("NYLON INSERT LOCK NUT", "PREVAILING TORQUE NUT NYLON INSERT", "HEX LOCK NUT NYLON"),
        "de": ("SICHERUNGSMUTTER NICHTMETALLISCH", "SICHERUNGSMUTTER KUNSTSTOFFRING"),
        "fr": ("ECROU FREIN BAGUE NYLON", "ECROU AUTOFREINE NYLON"),
        "es": ("TUERCA AUTOBLOCANTE NYLON",),
        "it": ("DADO AUTOBLOCCANTE NYLON", "DADO AUTOBLOCCANTE INSERTO NYLON"),
    },
    "metal_lock_nut": {
        "en": ("ALL METAL LOCK NUT", "PREVAILING TORQUE NUT ALL METAL"),
        "de": ("GANZMETALL-SICHERUNGSMUTTER", "SICHERUNGSMUTTER GANZMETALL"),
        "fr": ("ECROU AUTOFREINE TOUT METAL",),
        "es": ("TUERCA AUTOBLOCANTE METALICA",),
        "it": ("DADO AUTOBLOCCANTE TUTTO METALLO",),
    },
    "large_washer": {
        "en": ("LARGE WASHER", "WASHER, PLAIN, LARGE SERIES", "PENNY WASHER"),
        "de": ("SCHEIBE GROSSE REIHE", "UNTERLEGSCHEIBE GROSS"),
        "fr": ("RONDELLE PLATE LARGE", "RONDELLE LARGE"),
        "es": ("ARANDELA ANCHA", "ARANDELA PLANA ANCHA"),
        "it": ("RONDELLA LARGA", "ROSETTA PIANA LARGA"),
    },
    "small_washer": {
        "en": ("SMALL WASHER", "PLAIN WASHER SMALL SERIES"),
        "de": ("SCHEIBE KLEINE REIHE",),
        "fr": ("RONDELLE ETROITE", "RONDELLE PLATE ETROITE"),
        "es": ("ARANDELA ESTRECHA",),
        "it": ("RONDELLA STRETTA", "ROSETTA PIANA STRETTA"),
    },
    "chamfered_washer": {
        "en": ("CHAMFERED WASHER", "WASHER, PLAIN, CHAMFERED"),
        "de": ("SCHEIBE MIT FASE",),
        "fr": ("RONDELLE PLATE CHANFREINEE",),
        "es": ("ARANDELA BISELADA", "ARANDELA PLANA ACHAFLANADA"),
        "it": ("ROSETTA SMUSSATA", "RONDELLA PIANA SMUSSATA"),
    },
    "inch_cap_screw": {"en": ("HCS", "HHCS", "HEX CAP SCREW", "SCREW, CAP, HEX", "CAP SCREW HEX HD", "HEX CAP SCR")},
    "inch_socket_cap": {"en": ("SHCS", "SOC HD CAP SCR", "SOCKET HEAD CAP SCREW", "SKT HD CAP SCREW")},
    "inch_nut": {"en": ("HEX NUT", "NUT HEX", "FIN HEX NUT", "NUT, HEX")},
    "inch_jam_nut": {"en": ("HEX JAM NUT", "JAM NUT", "NUT, HEX, JAM")},
}
for _fine, _coarse in (("hex_screw_fine", "hex_screw"), ("hex_bolt_fine", "hex_bolt"), ("thin_nut_fine", "thin_nut")):
    NAMES[_fine] = NAMES[_coarse]
#: Names that leave several standards open: only beside the standard.
LOOSE_NAMES: dict[str, dict[str, tuple[str, ...]]] = {
    "bolt": {
        "en": ("HEX BOLT", "BOLT, HEX", "HEXAGON BOLT", "HEX HD BOLT", "BOLT", "SCREW", "HEX HEAD SCREW", "HHB"),
        "de": ("SECHSKANTSCHRAUBE", "6KT-SCHR.", "SKT-SCHRAUBE", "SCHRAUBE", "SECHSK.-SCHR."),
        "fr": ("VIS H", "VIS TETE HEXAGONALE", "VIS TH", "BOULON H", "VIS"),
        "es": ("TORNILLO HEXAGONAL", "TORN HEX", "PERNO HEXAGONAL", "TORNILLO"),
        "it": ("VITE TE", "VITE TESTA ESAGONALE", "VITE", "BULLONE ESAGONALE"),
    },
    "nut": {
        "en": ("HEX NUT", "NUT", "NUT, HEX", "HEXAGON NUT"),
        "de": ("SECHSKANTMUTTER", "6KT-MUTTER", "MUTTER", "6KT-MU", "SKT-MUTTER"),
        "fr": ("ECROU H", "ECROU HEXAGONAL", "ECROU"),
        "es": ("TUERCA HEXAGONAL", "TUERCA HEX", "TUERCA"),
        "it": ("DADO ESAGONALE", "DADO", "DADO ESAG."),
    },
    "washer": {
        "en": ("WASHER", "FLAT WASHER", "PLAIN WASHER", "WASHER, FLAT", "WSHR"),
        "de": ("SCHEIBE", "UNTERLEGSCHEIBE", "U-SCHEIBE"),
        "fr": ("RONDELLE", "RONDELLE PLATE"),
        "es": ("ARANDELA", "ARANDELA PLANA"),
        "it": ("RONDELLA", "ROSETTA PIANA", "RONDELLA PIANA"),
    },
}
FLANGE_BOLT = {
    "en": ("HEX FLANGE BOLT", "FLANGE BOLT"),
    "de": ("SECHSKANTSCHRAUBE MIT FLANSCH", "FLANSCHSCHRAUBE"),
    "fr": ("VIS H A EMBASE",),
    "es": ("TORNILLO HEXAGONAL CON BRIDA",),
    "it": ("VITE TE FLANGIATA",),
}
COATINGS: dict[str, dict[str, tuple[str, ...]]] = {
    "zinc plated": {
        "en": ("ZINC", "ZN", "ZP", "ZINC PLATED", "BZP", "ZINC PLT", "ELECTRO ZINC", "ZN PLTD"),
        "de": ("VERZINKT", "VERZ.", "GALV. VERZINKT", "VZ", "GAL ZN", "VERZINKT BLAU", "GALVANISCH VERZINKT"),
        "fr": ("ZINGUE", "ZINGUÉE", "ZN", "ACIER ZINGUE BLANC"),
        "es": ("CINCADO", "ZINCADO", "CINCADA"),
        "it": ("ZINCATO", "ZINCATA", "ZINCATURA BIANCA", "ZB"),
    },
    "black": {
        "en": ("BLACK", "BLK", "BLACK OXIDE", "BLK OX"),
        "de": ("SCHWARZ", "BRÜNIERT"),
        "fr": ("NOIR", "NOIRE", "BRUNI"),
        "es": ("NEGRO", "PAVONADO"),
        "it": ("BRUNITO", "BRUNITA", "NERO"),
    },
    "plain": {
        "en": ("PLAIN", "PLN", "SELF COLOUR", "UNCOATED"),
        "de": ("BLANK", "UNBEH."),
        "fr": ("BRUT", "BRUTE"),
        "es": ("SIN RECUBRIMIENTO",),
        "it": ("GREZZO", "GREZZA"),
    },
    "zinc flake": {
        "en": ("ZINC FLAKE", "FLZN", "ZN FLAKE"),
        "de": ("ZINKLAMELLE", "ZINKLAMELLENBESCH."),
        "fr": ("LAMELLES DE ZINC", "ZINC LAMELLAIRE"),
        "es": ("ZINC LAMINAR",),
        "it": ("ZINCO LAMELLARE",),
    },
    "phosphated": {
        "en": ("PHOS", "PHOSPHATED", "PHOSPHATE"),
        "de": ("PHOSPHATIERT", "PHOSPH."),
        "fr": ("PHOSPHATE", "PHOSPHATEE"),
        "es": ("FOSFATADO",),
        "it": ("FOSFATATO", "FOSFATATA"),
    },
    "zinc nickel": {
        "en": ("ZNNI", "ZINC NICKEL", "ZN-NI"),
        "de": ("ZINK-NICKEL", "ZNNI"),
        "fr": ("ZINC NICKEL", "ZN/NI"),
        "es": ("ZINC NIQUEL", "CINC-NIQUEL"),
        "it": ("ZINCO NICHEL", "ZINCO-NICHEL"),
    },
    "tZn": {
        "en": ("HDG", "HOT DIP GALV", "HOT-DIP GALVANIZED", "TZN"),
        "de": ("FEUERVERZINKT", "FVZ", "TZN"),
        "fr": ("GALVANISE A CHAUD", "GALVA CHAUD"),
        "es": ("GALVANIZADO EN CALIENTE",),
        "it": ("ZINCATO A CALDO", "ZINCATURA A CALDO"),
    },
}
#: What stands before a class.
CLASS_MARKS = {
    "en": ("", "", "", "GR", "GR ", "CL", "CL ", "CL.", "CLASS ", "GRADE ", "PC "),
    "de": ("", "", "", "KL.", "KL ", "FK ", "FKL ", "FESTIGKEIT ", "GÜTE "),
    "fr": ("", "", "CL ", "CL.", "CLASSE ", "QUAL. "),
    "es": ("", "", "CL ", "CAL ", "CALIDAD ", "CLASE "),
    "it": ("", "", "CL ", "CL.", "CLASSE "),
}
GRADE_MARKS = ("GR", "GR ", "GR.", "GRADE ", "G", "SAE GR ", "SAE J429 ", "GR-")
LENGTH_MARKS = {
    "en": ("L=", "LG ", "LG.", "LENGTH ", "L "),
    "de": ("L=", "LÄNGE ", "LG "),
    "fr": ("LONG. ", "LONGUEUR ", "LG "),
    "es": ("LONGITUD ", "LARGO ", "L="),
    "it": ("LUNGHEZZA ", "LUNG. ", "L="),
}
#: What else stands in such texts; none of it belongs to a part.
FILLERS = (
    "PK 100",
    "(100/BOX)",
    "***",
    "NEW",
    "STOCK",
    "REV B",
    "QTY 50",
    "!",
    "SEE NOTE",
    "BOX 200",
    "CTN 500",
    "--",
    "STD",
    "RAL9005 NO",
    "BIN A12",
    "SUPPLIER 4711",
    "REORDER",
    "PCE",
    "1000 PCS",
)
#: Before `ISO` by country; a European standard keeps its number.
PREFIXES = {
    "en": ("ISO ", "ISO", "ISO-", "BS EN ISO ", "EN ISO "),
    "de": ("ISO ", "DIN EN ISO ", "DIN ISO ", "EN ISO "),
    "fr": ("ISO ", "NF EN ISO ", "EN ISO "),
    "es": ("ISO ", "UNE EN ISO ", "ISO"),
    "it": ("ISO ", "UNI EN ISO ", "ISO"),
}
JUNK = (
    "MISC HARDWARE",
    "SEE DRAWING",
    "DO NOT USE",
    "TBD",
    "O-RING 10X2 NBR",
    "BALL BEARING 6204 2RS",
    "GASKET DN50 PN16",
    "CABLE TIE 200MM",
    "HYDRAULIC OIL 20L",
    "FARBE RAL 9005",
    "ROULEMENT A BILLES",
    "CORREA TRAPEZOIDAL",
    "GUARNIZIONE OR",
    "???",
    "-",
    "X",
    "N/A",
    "WOOD SCREW 4X40",
    "HOLZSCHRAUBE 5X50",
    "RIVET 4X10",
    "SPLIT PIN 3.2X25",
    "WING NUT M8",
    "EYE BOLT M12",
    "CARRIAGE BOLT M10X60",
    "SPRING WASHER M10",
    "FEDERRING M8",
    "STUD BOLT M12X100",
    "GOUJON M10",
    "PRIGIONIERO M8",
    "TUERCA MARIPOSA M6",
    "SELF TAPPING SCREW 4.2X13",
    "RONDELLE ELASTIQUE M8",
    "HUTMUTTER M10",
    "ECROU BORGNE M8",
)
