export const intro =
  'A record of one batch of biodiesel, as its log tells it. It is no certificate: home tests do not show that fuel meets a standard, and local codes and licensed people decide what may be done where you are.';

export const timesNote =
  'All times are UTC. "Record" is the number of the line in the log. Where a quantity has a ±, the true value may lie that far on either side.';
