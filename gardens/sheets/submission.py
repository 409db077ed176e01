"""The sheet that goes into the parcel with the bags: a page for the parcel, one per bag.

A plain layout of our own; it follows no lab's form.
"""

from reportlab.platypus import Flowable, PageBreak

from gardens.sheets import fonts, page
from gardens.sheets.parcel_page import parcel_page, parcel_title
from gardens.sheets.sample_page import sample_page
from gardens.sheets.values import Paper, Submission


def submission_sheet(submission: Submission, paper: Paper) -> bytes:
    """Print one parcel to one lab.

    Parameters
    ----------
    submission : Submission
        One or more samples.
    paper : {"a4", "letter"}
        Paper to print on.

    Returns
    -------
    bytes
        A PDF; the same bytes for the same parcel.
    """
    fonts.register()
    width, _ = page.room(paper)
    story: list[Flowable] = parcel_page(submission, width)
    for index in range(len(submission.samples)):
        story += [PageBreak(), *sample_page(submission, index, width)]
    title = parcel_title(submission)
    if submission.grower.name:
        title += f" from {submission.grower.name}"
    return page.build(story, title=title, paper=paper)
