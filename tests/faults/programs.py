"""The same phones, driven by programs that Hypothesis makes up and, when one fails, shortens."""

from random import Random

from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import (
    RuleBasedStateMachine,
    initialize,
    precondition,
    rule,
    run_state_machine_as_test,
)

from tests.faults.counts import FIRST_SEED, Counts
from tests.faults.invariants import check_everything
from tests.faults.season import settle
from tests.faults.simulated import (
    PULL_FAULTS,
    PUSH_FAULTS,
    Device,
    Server,
    forget_everything,
)

PHONES = st.integers(0, 2)
CHOICES = st.randoms(use_true_random=False)
LONGEST = 40


def run_programs(account, n, counts=None):
    """Run so many programs; a failing one is printed as the steps that make it fail."""
    asked = settings(
        max_examples=n,
        stateful_step_count=LONGEST,
        deadline=None,
        derandomize=FIRST_SEED == 0,  # the same programs at every change, others in long runs
        suppress_health_check=list(HealthCheck),
        database=None,
        print_blob=True,
    )
    counted = Counts() if counts is None else counts
    run_state_machine_as_test(lambda: Garden(account, counted), settings=asked)


class Garden(RuleBasedStateMachine):
    """A server and three phones, any step of which may go wrong."""

    def __init__(self, account, counts):
        super().__init__()
        forget_everything()
        self.server, self.backup = Server(account, counts), None
        self.server.counts["programs"] += 1
        self.phones = [Device(self.server, Random(n)) for n in range(3)]

    @initialize()
    def open(self):
        self.phones[0].open_garden()

    def _phone(self, which, dice):
        self.phones[which].dice = dice
        return self.phones[which]

    @rule(which=PHONES, dice=CHOICES)
    def create(self, which, dice):
        self._phone(which, dice).create()

    @rule(which=PHONES, dice=CHOICES)
    def edit(self, which, dice):
        self._phone(which, dice).edit()

    @rule(which=PHONES, dice=CHOICES)
    def delete(self, which, dice):
        self._phone(which, dice).delete()

    @rule(which=PHONES, dice=CHOICES, fault=st.sampled_from(list(PUSH_FAULTS)))
    def send(self, which, dice, fault):
        self.server.counts[fault] += 1
        self._phone(which, dice).send(fault)

    @rule(which=PHONES, dice=CHOICES, fault=st.sampled_from(list(PULL_FAULTS)))
    def read(self, which, dice, fault):
        self.server.counts[fault] += 1
        self._phone(which, dice).read(fault)

    @precondition(lambda self: self.server.late)
    @rule(which=st.integers(0, 9))
    def arrive_late(self, which):
        self.server.deliver_late(which % len(self.server.late))

    @rule()
    def back_up(self):
        self.backup = self.server.back_up()

    @precondition(lambda self: self.backup)
    @rule()
    def restore(self):
        self.server.restore(self.backup)

    def teardown(self):
        for phone in self.phones:
            phone.dice = Random(0)
        settle(self.phones)
        check_everything(self.server, self.phones)
