"""A drawn piece of a page that knows its size from the start.

Not for text, which finds its height while it is laid out.
"""

from reportlab.platypus import Flowable


class Piece(Flowable):
    """Piece of fixed size; whoever inherits draws it from its lower left corner.

    Parameters
    ----------
    width, height : float
        [pt, > 0]
    """

    def __init__(self, width: float, height: float) -> None:
        super().__init__()
        self.width, self.height = width, height

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        """Size it takes, whatever room there is.

        Parameters
        ----------
        width, height : float
            Room that is left [pt].

        Returns
        -------
        (float, float)
            Width and height [pt].
        """
        return self.width, self.height
