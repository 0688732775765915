"""A printed page: fonts in the file, names in any script, the same bytes twice."""

import re
import subprocess
import sys
from io import BytesIO
from pathlib import Path

import pytest
import segno
from pypdf import PdfReader

from curriculum.lettering import TICK, allergen, sign
from curriculum.paper import LEADING, MM, Paper, name_on_paper, unprintable

ROOT = Path(__file__).resolve().parents[2]
#: script -> (an invented name, the font that sets it)
SCRIPTS = {
    "Arabic": ("محمد", "Arabic"),
    "Hebrew": ("משה לוי", "Arimo"),
    "Devanagari": ("क्षितिज शर्मा", "Devanagari"),
    "Bengali": ("অনিকা", "HindSiliguri"),
    "Tamil": ("கௌரி ஸ்ரீ", "Tamil"),
    "Thai": ("น้ำทิพย์", "Thai"),
    "Chinese": ("王小明 陳志強", "NotoSansSC"),
    "Japanese": ("山田ひかり", "NotoSansSC"),
    "Korean": ("김민수", "NotoSansKR"),
    "Cyrillic": ("Фёдор", "FiraSans"),
    "Greek": ("Ελένη", "FiraSans"),
    "Vietnamese": ("Nguyễn Thị Phương", "FiraSans"),
    "marks apart": ("Ma\u030br z\u0327a\u0331", "FiraSans"),
}
NAMES = ("Zażółć Gęślą", "Παπαδόπουλος Ελένη", "Фёдор", "Nguyễn Thị Phương", "<b>Leif</b> & Co", "İpek Öğüt")


def read(pdf):
    return PdfReader(BytesIO(pdf))


def text(pdf):
    return "\n".join(page.extract_text() for page in read(pdf).pages)


def a_page(*words, **more):
    paper = Paper("Trial", **more)
    for each in words:
        paper.y = paper.text(paper.left, paper.y, each, width=paper.width)
    return paper.finish()


def fonts_of(pdf):
    found = {}
    for page in read(pdf).pages:
        for font in page["/Resources"]["/Font"].values():
            font = font.get_object()
            descriptor = font.get("/FontDescriptor")
            found[str(font["/BaseFont"])] = bool(descriptor and "/FontFile2" in descriptor.get_object())
    return found


@pytest.mark.parametrize("name", NAMES)
def test_a_name_stands_on_paper_as_it_is_written(name):
    assert name in text(a_page(name))
    assert unprintable([name]) == ()


def test_names_from_right_to_left_have_a_font_of_their_own():
    pdf = a_page("\u0645\u062d\u0645\u062f")
    assert any("Arabic" in name for name in fonts_of(pdf))
    assert unprintable(["\u0645\u062d\u0645\u062f"]) == ()


def test_every_font_is_in_the_file():
    fonts = fonts_of(a_page(*NAMES, sign("Title"), allergen("milk"), "\u0645\u062d\u0645\u062f"))
    assert len(fonts) >= 4
    assert all(fonts.values())


def test_what_no_font_has_is_told_and_stands_as_its_number():
    assert unprintable(["\U00013000"]) == ("\U00013000",)
    assert "[U+13000]" in text(a_page("\U00013000"))


@pytest.mark.parametrize("script", SCRIPTS)
def test_a_name_of_this_script_has_its_letters_in_the_file(script):
    name, font = SCRIPTS[script]
    fonts = fonts_of(a_page(name))
    assert unprintable([name]) == ()
    assert any(font in each for each in fonts)
    assert all(fonts.values())


@pytest.mark.parametrize(("apart", "name"), [("क्ष", "क्षि"), ("ஸ்", "ஸ்ரீ"), ("দ", "ন্দ্র")])
def test_letters_that_join_take_less_room_than_one_by_one(apart, name):
    paper = Paper("Trial")
    wide = [paper.line_width(paper.lines_of(each, 400)[0], 20) for each in (name, *name)]
    assert 0 < wide[0] < sum(wide[1:])


def test_thin_letters_are_thickened_by_an_outline_and_no_others_are():
    drawn = [read(a_page(words)).pages[0].get_contents().get_data() for words in ("王小明", "Leif")]
    assert b"2 Tr" in drawn[0]
    assert b"2 Tr" not in drawn[1]


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("Leif", "Leif"),
        ("\U00013000 Ib", "Ib (1 letter not printed)"),
        ("\U00013000\U00013001", "name not printed (2 letters)"),
    ],
)
def test_a_name_without_its_letters_says_so_in_words(name, said):
    assert name_on_paper(name) == said


def test_the_same_page_has_the_same_bytes():
    assert a_page(*NAMES) == a_page(*NAMES)


def test_the_same_page_has_the_same_bytes_whatever_was_printed_before():
    script = (
        "from tests.curriculum.test_paper import a_page; import hashlib, sys;"
        "[a_page(words) for words in sys.argv[1:]];"
        "print(hashlib.sha256(a_page('ஸ்ரீ க்ஷி')).hexdigest())"
    )
    said = [
        subprocess.run(
            [sys.executable, "-c", script, *before], cwd=ROOT, capture_output=True, check=True
        ).stdout
        for before in ([], ["ன்னு கௌரி டி", "மீனாட்சி"])
    ]
    assert len(said[0]) > 60
    assert said[0] == said[1]


def test_title_and_language_are_in_the_file():
    pdf = read(a_page("x"))
    assert pdf.metadata.title == "Trial"
    assert pdf.trailer["/Root"]["/Lang"] == "en-GB"
    assert pdf.trailer["/Root"]["/ViewerPreferences"]["/DisplayDocTitle"].value is True


def test_the_page_is_a4_either_way_up():
    upright, across = read(a_page("x")), read(a_page("x", landscape=True))
    assert (round(upright.pages[0].mediabox.width / MM), round(upright.pages[0].mediabox.height / MM)) == (
        210,
        297,
    )
    assert (round(across.pages[0].mediabox.width / MM), round(across.pages[0].mediabox.height / MM)) == (
        297,
        210,
    )


def test_words_take_the_height_that_is_told_before():
    paper = Paper("Trial")
    words = "one two three four five " * 12
    height = paper.height_of(words, 200)
    assert paper.text(paper.left, 50, words, width=200) == pytest.approx(50 + height)
    assert height == pytest.approx(len(paper.lines_of(words, 200)) * paper.size * LEADING)


def test_the_foot_counts_the_pages():
    paper = Paper("Trial", foot="Bench 1")
    paper.new_page()
    assert "Bench 1" in text(paper.finish())
    assert "1 of 2" in text(paper.finish())
    assert "2 of 2" in text(paper.finish())


def test_each_part_has_its_bookmark_its_numbers_and_its_size():
    paper = Paper("Trial")
    for bench, size in (("4", 10.5), ("5", 18.0)):
        paper.part(foot="Scones", mark=f"bench {bench}", bookmark=f"Bench {bench}", size=size)
        assert paper.size == size
        paper.text(paper.left, paper.y, "Words", width=200)
        if bench == "4":
            paper.new_page()
    pdf = read(paper.finish())
    pages = [page.extract_text() for page in pdf.pages]
    assert ["bench 4, 1 of 2" in pages[0], "bench 4, 2 of 2" in pages[1], "bench 5, 1 of 1" in pages[2]]
    assert [(each.title, pdf.get_destination_page_number(each)) for each in pdf.outline] == [
        ("Bench 4", 0),
        ("Bench 5", 2),
    ]


def test_room_that_is_not_there_begins_a_page():
    paper = Paper("Trial")
    paper.y = paper.bottom - 10
    paper.room(9)
    assert paper.y == paper.bottom - 10
    paper.room(11)
    assert paper.y == paper.top


def test_a_code_is_one_path_and_boxes_are_never_filled():
    paper = Paper("Trial")
    paper.qr(50, 50, 60, "https://kitchen.example/k/ABCDEFGH")
    paper.free_from(50, 150, "FREE FROM MILK, Silas", width=200)
    paper.text(50, 200, (TICK, " done"), width=200)
    content = read(paper.finish()).pages[0].get_contents().get_data()
    assert len(re.findall(rb"(?m)(?:^|\s)[fFbB]\*?(?=\s)", content)) == 1
    assert len(re.findall(rb" re(?=\s)", content)) > 100


def test_the_code_on_paper_is_the_code_of_its_words():
    words = "https://kitchen.example/k/ABCDEFGH"
    paper = Paper("Trial")
    paper.qr(50, 50, 60, words)
    content = read(paper.finish()).pages[0].get_contents().get_data().decode("latin-1")
    drawn = {
        (-int(row) - 1, int(start) + step)
        for start, row, length in re.findall(r"(\d+) (-\d+) (\d+) 1 re", content)
        for step in range(int(length))
    }
    matrix = segno.make(words, error="m", micro=False).matrix
    assert drawn == {(y, x) for y, row in enumerate(matrix) for x, dark in enumerate(row) if dark}


def test_a_plate_holds_three_signs_too():
    paper = Paper("Trial")
    paper.plate(50, 50, "112", 40)
    assert "112" in text(paper.finish())
