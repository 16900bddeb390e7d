using static TransportPlanner.Core.FloorPlans.FloorPlanCheck;

namespace TransportPlanner.Core.FloorPlans;

/// <summary>Whether the parts of a plan refer to each other: what has to hold before anything can be computed.</summary>
internal static class StructureCheck
{
    internal static IEnumerable<Finding> Run(FloorPlan plan) =>
    [
        .. Empty(plan),
        .. Twice("level", plan.Levels.Select(level => level.Id)),
        .. Twice("place", plan.Places.Select(place => place.Number)),
        .. Twice("passage", plan.Passages.Select(passage => passage.Id)),
        .. Twice("elevatorGroup", plan.ElevatorGroups.Select(group => group.Id)),
        .. Twice("elevator", plan.Elevators.Select(elevator => elevator.Id)),
        .. new References(plan).Findings(),
    ];

    private static IEnumerable<Finding> Empty(FloorPlan plan) =>
        plan.Levels.IsEmpty || plan.Places.IsEmpty ? [Error("the plan", "features", $"The plan has {plan.Levels.Length} levels and {plan.Places.Length} places: give at least one of each.")] : [];

    private static IEnumerable<Finding> Twice(string feature, IEnumerable<string> numbers) =>
        numbers.GroupBy(number => number, StringComparer.Ordinal).Where(group => group.Skip(1).Any()).Select(group =>
            Error($"{feature} {group.Key}", "number", $"The number {group.Key} is used {group.Count()} times: give each {feature} its own."));

    private sealed class References(FloorPlan plan)
    {
        private readonly Dictionary<string, Level> _levels = First(plan.Levels, level => level.Id);
        private readonly Dictionary<string, Place> _places = First(plan.Places, place => place.Number);
        private readonly Dictionary<string, Passage> _passages = First(plan.Passages, passage => passage.Id);
        private readonly HashSet<string> _groups = [.. plan.ElevatorGroups.Select(group => group.Id)];
        private readonly ILookup<string, Elevator> _byCar = plan.Elevators.ToLookup(elevator => elevator.Car);

        internal IEnumerable<Finding> Findings() =>
            [.. plan.Places.SelectMany(Of), .. plan.Passages.SelectMany(Of), .. plan.Elevators.SelectMany(Of)];

        private IEnumerable<Finding> Of(Place place)
        {
            var (subject, isCar) = ($"place {place.Number}", place.Kind == PlaceKind.ElevatorCar);
            if (isCar && place.Level is not null)
            {
                yield return Error(subject, "level", $"An elevator car moves between levels, yet {place.Number} is on level {place.Level}: leave the level out.");
            }
            else if (!isCar && place.Level is null)
            {
                yield return Error(subject, "level", $"{place.Number} has no level: give one; only an elevator car goes without.");
            }
            else if (place.Level is { } level && !_levels.ContainsKey(level))
            {
                yield return Error(subject, "level", $"{place.Number} is on level {level}, which does not exist: correct it or add the level.");
            }

            if (place.Outline.Corners.Length < 3)
            {
                yield return Error(subject, "geometry", $"The outline of {place.Number} has {place.Outline.Corners.Length} corners: draw at least 3.");
            }

            if (isCar && !_byCar.Contains(place.Number))
            {
                yield return Error(subject, "kind", $"{place.Number} is an elevator car, and no elevator names it: add the elevator or change the kind.");
            }
        }

        private IEnumerable<Finding> Of(Passage passage)
        {
            var subject = $"passage {passage.Id}";
            foreach (var end in new[] { passage.From, passage.To }.Where(end => !_places.ContainsKey(end)))
            {
                yield return Error(subject, "joins", $"Passage {passage.Id} joins {end}, which does not exist: correct the number or add the place.");
            }

            if (passage.From == passage.To)
            {
                yield return Error(subject, "joins", $"Passage {passage.Id} joins {passage.From} to itself: name the two places it lies between.");
            }

            foreach (var car in new[] { passage.From, passage.To }.Where(_byCar.Contains))
            {
                if (!_byCar[car].First().Stops.Any(stop => stop.LandingDoor == passage.Id))
                {
                    yield return Error(subject, "joins", $"Passage {passage.Id} leads into the car {car}, and no stop of its elevator names it: add the stop or remove the passage.");
                }
            }
        }

        private IEnumerable<Finding> Of(Elevator elevator)
        {
            var subject = $"elevator {elevator.Id}";
            if (!_groups.Contains(elevator.Group))
            {
                yield return Error(subject, "group", $"Elevator {elevator.Id} belongs to the group {elevator.Group}, which does not exist: correct it or add the group.");
            }

            if (!_places.TryGetValue(elevator.Car, out var car) || car.Kind != PlaceKind.ElevatorCar)
            {
                yield return Error(subject, "car", $"The car {elevator.Car} of elevator {elevator.Id} is no place of the kind elevatorCar: add it or correct the number.");
            }
            else if (_byCar[elevator.Car].Skip(1).Any())
            {
                yield return Error(subject, "car", $"The car {elevator.Car} belongs to {_byCar[elevator.Car].Count()} elevators: give each its own car.");
            }

            if (elevator.Stops.Length < 2)
            {
                yield return elevator.Stops.IsEmpty
                    ? Error(subject, "stops", $"Elevator {elevator.Id} has no stops: list where it stops, or remove it.")
                    : Warning(subject, "stops", $"Elevator {elevator.Id} has one stop only, so nobody can ride it: list where else it stops.");
            }

            for (var i = 0; i < elevator.Stops.Length; i++)
            {
                foreach (var finding in Of(elevator, elevator.Stops[i], subject, $"stops[{i}]"))
                {
                    yield return finding;
                }
            }
        }

        private IEnumerable<Finding> Of(Elevator elevator, ElevatorStop stop, string subject, string path)
        {
            if (!_levels.ContainsKey(stop.Level))
            {
                yield return Error(subject, $"{path}.level", $"Elevator {elevator.Id} stops at level {stop.Level}, which does not exist: correct it or add the level.");
            }

            if (!_places.TryGetValue(stop.Landing, out var landing))
            {
                yield return Error(subject, $"{path}.landing", $"The landing {stop.Landing} of elevator {elevator.Id} does not exist: correct the number or add the place.");
            }
            else if (landing.Level != stop.Level)
            {
                yield return Error(subject, $"{path}.landing", $"Elevator {elevator.Id} stops at level {stop.Level}, and its landing {stop.Landing} is on level {landing.Level}: correct one of them.");
            }

            if (!_passages.TryGetValue(stop.LandingDoor, out var door))
            {
                yield return Error(subject, $"{path}.landingDoor", $"The landing door {stop.LandingDoor} of elevator {elevator.Id} does not exist: correct the number or add the passage.");
            }
            else if (door.Kind != PassageKind.LandingDoor
                || !(door.From == stop.Landing && door.To == elevator.Car || door.To == stop.Landing && door.From == elevator.Car))
            {
                yield return Error(subject, $"{path}.landingDoor", $"Passage {door.Id} joins {door.From} and {door.To}: the stop needs a landingDoor that joins {stop.Landing} and the car {elevator.Car}.");
            }

            if (elevator.Stops.Count(other => other.LandingDoor == stop.LandingDoor) > 1)
            {
                yield return Error(subject, $"{path}.landingDoor", $"The landing door {stop.LandingDoor} belongs to several stops: give each stop its own.");
            }
        }

        private static Dictionary<string, T> First<T>(IEnumerable<T> items, Func<T, string> key) =>
            items.GroupBy(key, StringComparer.Ordinal).ToDictionary(group => group.Key, group => group.First(), StringComparer.Ordinal);
    }
}
