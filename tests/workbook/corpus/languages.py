"""The same kinds of list in the shop words of eleven languages."""

from tests.workbook.corpus.case import Case

R = "rectangle"

CASES = [
    Case(
        "english, plain",
        [
            ["Mark", "Qty", "Thickness (mm)", "Length (mm)", "Width (mm)", "Grade"],
            ["P1", 4, 20, 300, 300, "S275"],
            ["P2", 12, 10, 150, 120, "S275"],
        ],
        [(2, "P1", 4, 20, 300, 300, None, R), (3, "P2", 12, 10, 150, 120, None, R)],
        counts="heading 1, priced 2",
    ),
    Case(
        "english, inches, fractions and feet",
        [
            ["ITEM NO.", "NO. OFF", "THK", "LENGTH", "WIDTH"],
            ["Dimensions in inches"],
            [1, 4, "3/8", '12"', '6"'],
            [2, 2, "1-1/2", "2'-6 1/2\"", '8 3/4"'],
            [3, 6, "½", '10"', '10"'],
        ],
        [
            (3, "1", 4, 9.525, 304.8, 152.4, None, R),
            (4, "2", 2, 38.1, 774.7, 222.25, None, R),
            (5, "3", 6, 12.7, 254, 254, None, R),
        ],
        counts="heading 1, title 1, priced 3",
    ),
    Case(
        "german, units row, decimal comma as text, total",
        [
            ["Auftraggeber:", "Erfundene Mühle"],
            ["Projekt", "Rahmen 3"],
            [],
            ["Pos.", "Bezeichnung", "Stückzahl", "Blechdicke", "Länge", "Breite", "Werkstoff", "Gewicht"],
            [None, None, "Stk", "mm", "mm", "mm", None, "kg"],
            [1, "Fußplatte", 4, "12,5", 300, 200, "S235JR", 5.89],
            [2, "Knotenblech", 8, "10", 150, 150, "S235JR", 1.77],
            [3, "Rippe", 2, "8", "1.200,5", 90, "S235JR", 6.78],
            [None, "Gesamt", 14, None, None, None, None, None],
        ],
        [
            (6, "1", 4, 12.5, 300, 200, None, R),
            (7, "2", 8, 10, 150, 150, None, R),
            (8, "3", 2, 8, 1200.5, 90, None, R),
        ],
        counts="title 2, blank 1, heading 1, units 1, priced 3, subtotal 1",
        title={"customer": "Erfundene Mühle", "job": "Rahmen 3"},
    ),
    Case(
        "french, gauge words and section names",
        [
            ["Repère", "Désignation", "Qté", "Épaisseur (mm)", "Longueur (mm)", "Largeur (mm)", "Nuance"],
            ["A1", "Gousset", 6, "ép. 10", 200, 150, "S235"],
            ["A2", "Platine", "2 pièces", "t=15", 250, 250, "S235"],
            ["Sous-total", None, 8],
        ],
        [(2, "A1", 6, 10, 200, 150, None, R), (3, "A2", 2, 15, 250, 250, None, R)],
        counts="heading 1, priced 2, subtotal 1",
    ),
    Case(
        "spanish, chapa in the size",
        [
            ["Marca", "Descripción", "Cant.", "Medidas (mm)", "Acero"],
            ["B-1", "Cartela", 10, "10x120x180", "A36"],
            ["B-2", "Placa base", 4, "Chapa 20x300x300", "A36"],
            ["Total", None, 14, None, None],
        ],
        [(2, "B-1", 10, 10, 180, 120, None, R), (3, "B-2", 4, 20, 300, 300, None, R)],
        counts="heading 1, priced 2, subtotal 1",
    ),
    Case(
        "portuguese, inch chapa and area in square metres",
        [
            [
                "Item",
                "Descrição",
                "Quantidade",
                "Unid. Medida",
                "Espessura",
                "Comprimento (mm)",
                "Largura (mm)",
                "Área",
            ],
            [1, "Chapa de base", 4, "pç", '1/2"', 300, 250, 0.075],
            [2, "Nervura", 8, "pç", '3/8"', 200, 90, 0.018],
        ],
        [(2, "1", 4, 12.7, 300, 250, None, R), (3, "2", 8, 9.525, 200, 90, None, R)],
    ),
    Case(
        "italian, q.tà and lamiera",
        [
            ["Pos", "Denominazione", "Q.tà", "Spessore (mm)", "Lunghezza (mm)", "Larghezza (mm)", "Note"],
            [10, "Piastra", "4 pz", "sp. 12", 400, 200, "tagliare a fiamma"],
            [20, "Fazzoletto", "12 pz", 8, 150, 150, None],
            ["Totale", None, 16],
        ],
        [(2, "10", 4, 12, 400, 200, None, R), (3, "20", 12, 8, 150, 150, None, R)],
        counts="heading 1, priced 2, subtotal 1",
    ),
    Case(
        "polish, lengths in cm and pieces as szt.",
        [
            ["Lp.", "Nazwa", "Ilość (szt.)", "Grubość (mm)", "Długość (cm)", "Szerokość (cm)", "Gatunek"],
            [1, "Blacha węzłowa", "5 szt.", 12, 35, 20.5, "S235"],
            [2, "Blacha podstawy", "2 szt.", 25, 40, 40, "S355"],
            ["RAZEM", None, 7],
        ],
        [(2, "1", 5, 12, 350, 205, None, R), (3, "2", 2, 25, 400, 400, None, R)],
        counts="heading 1, priced 2, subtotal 1",
    ),
    Case(
        "russian, comma units in headings, sheet mark before the thickness",
        [
            ["Поз.", "Марка элемента", "Сечение", "Длина, мм", "Кол-во, шт", "Масса, кг", "Сталь"],
            [1, "М-1", "—10x200", 300, 4, 4.71, "С245"],
            [2, "М-2", "Лист 12x150", 250, 2, 3.53, "С245"],
            [3, "М-3", "-8х100", 180, 6, 1.13, "С255"],
            ["ИТОГО", None, None, None, 12, None, None],
        ],
        [
            (2, "М-1", 4, 10, 300, 200, None, R),
            (3, "М-2", 2, 12, 250, 150, None, R),
            (4, "М-3", 6, 8, 180, 100, None, R),
        ],
        codes="W116 W213 W213 W213",
        counts="heading 1, priced 3, subtotal 1",
        grades=["С245", "С245", "С255"],
    ),
    Case(
        "chinese, size strings and pieces",
        [
            ["零件編號", "名稱", "規格尺寸", "數量", "材質", "備註"],
            ["A01", "底板", "20*300*300", 4, "SS400", None],
            ["A02", "加勁板", "10*150*200", "8 件", "SS400", None],
            ["合計", None, None, 12, None, None],
        ],
        [(2, "A01", 4, 20, 300, 300, None, R), (3, "A02", 8, 10, 200, 150, None, R)],
        codes="W116",
        counts="heading 1, priced 2, subtotal 1",
    ),
    Case(
        "vietnamese",
        [
            ["STT", "Mô tả", "Chiều dày (mm)", "Chiều dài (mm)", "Chiều rộng (mm)", "Số lượng", "Ghi chú"],
            [1, "Bản mã", 10, 250, 200, 6, None],
            [2, "Sườn", 8, 180, 90, 12, None],
            ["Tổng cộng", None, None, None, None, 18, None],
        ],
        [(2, "1", 6, 10, 250, 200, None, R), (3, "2", 12, 8, 180, 90, None, R)],
        counts="heading 1, priced 2, subtotal 1",
    ),
    Case(
        "two languages in one heading",
        [
            ["MARK\nMARCA", "QTY\nCANT.", "Thickness / Dicke\n(mm)", "Length (Länge) mm", "Width (Breite) mm"],
            ["K1", 3, 16, 500, 120],
        ],
        [(2, "K1", 3, 16, 500, 120, None, R)],
    ),
]
