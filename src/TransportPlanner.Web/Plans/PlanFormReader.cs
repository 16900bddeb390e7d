using System.Globalization;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Mvc;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Gas;
using TransportPlanner.Core.Kits;
using TransportPlanner.Core.Posts;
using TransportPlanner.Core.Precautions;
using TransportPlanner.Core.Travel;
using TransportPlanner.Web.Batteries;
using TransportPlanner.Web.FloorPlans;
using TransportPlanner.Web.Gas;
using TransportPlanner.Web.Http;
using TransportPlanner.Web.Routing;

namespace TransportPlanner.Web.Plans;

/// <summary>Turns what was typed on the start page into the request that the API takes.</summary>
internal static class PlanFormReader
{
    /// <summary>Null, with the problems in <paramref name="entries"/>, where something is missing or refused.</summary>
    /// <param name="form">What was typed.</param>
    /// <param name="plan">Of the site.</param>
    /// <param name="choice">Cylinders to choose from.</param>
    /// <param name="before">What the plan was made from that is changed: what the page cannot show of it stays as it was given; null for a new plan.</param>
    /// <param name="entries">Takes the problems.</param>
    public static PlanRequest? Read(PlanForm form, FloorPlan plan, CylinderChoice choice, PlanRequest? before, Entries entries)
    {
        var from = PlaceOf(plan, "From", "leave from", form.From, entries);
        var to = PlaceOf(plan, "To", "go to", form.To, entries);
        entries.Need("Support", form.Support is not null, "Choose the breathing support.");
        List<Precaution> precautions = [];
        precautions.AddRange(form.Airborne ? [Precaution.Airborne] : []);
        precautions.AddRange(form.Droplet ? [Precaution.Droplet] : []);
        precautions.AddRange(form.Contact ? [Precaution.Contact] : []);
        entries.Need("Precautions", precautions.Count > 0, "Choose at least one precaution.");
        var cylinders = PlanCylinders.Read(form, choice, before, entries);
        // Without empty rows between them, a row has the place of its battery in the request.
        form.Batteries = [.. form.Batteries.Where(entry => !entry.IsEmpty)];
        List<BatteryRequest> batteries = [.. form.Batteries.Select((entry, row) => entry.Read(row, entries)).OfType<BatteryRequest>()];
        var flow = entries.Number("Flow", "Set flow", form.Flow, (decimal)GasDemand.MinLitresPerMinute, (decimal)GasDemand.MaxLitresPerMinute, "L/min");
        var fraction = entries.Number("OxygenFraction", "Oxygen fraction (not percent)", form.OxygenFraction, GasDemand.MinOxygenFraction, GasDemand.MaxOxygenFraction, "");
        var drive = entries.Number("DriveFlow", "Drive gas", form.DriveFlow, 0, (decimal)GasDemand.MaxLitresPerMinute, "L/min");
        var bleed = entries.Number("Bleed", "Blender bleed", form.Bleed, 0, (decimal)GasDemand.MaxLitresPerMinute, "L/min");
        var weight = entries.Whole("WeightGrams", "Weight", form.WeightGrams, KitQuery.MinWeightGrams, KitQuery.MaxWeightGrams, "g");
        var gestation = entries.Whole("GestationWeeks", "Gestation", form.GestationWeeks, KitQuery.MinGestationWeeks, KitQuery.MaxGestationWeeks, "weeks");
        var conveyance = ConveyanceOf(form, entries);
        var officers = entries.Whole("Officers", "Officers", form.Officers, 0, OfficersGiven.MaxCount, "officers");
        var departAt = DepartureOf(form, plan, entries);
        if (form.FlowIs == FlowKind.MinuteVolume)
        {
            entries.Need("FlowIs", flow is not null && form.Support == RespiratorySupport.InvasiveVentilation, PlanDemandRequest.MinuteVolumeNeeds);
        }

        if (entries.Problems.Count > 0)
        {
            return null;
        }

        return new()
        {
            SiteId = plan.SiteId,
            From = from!,
            To = to!,
            Support = form.Support!.Value,
            Precautions = precautions,
            Cylinders = cylinders,
            Batteries = batteries,
            Demand = flow is null && fraction is null && drive is null && bleed is null && form.AirSource == AirSource.Cylinder && form.FlowIs == FlowKind.SetFlow ? null : new()
            {
                FlowLitresPerMinute = (double?)flow,
                OxygenFraction = (double?)fraction,
                FlowIs = form.FlowIs,
                DriveGasLitresPerMinute = (double)(drive ?? 0),
                DriveGas = form.DriveGas,
                BleedLitresPerMinute = (double)(bleed ?? 0),
                AirSource = form.AirSource,
            },
            WeightGrams = weight,
            GestationWeeks = gestation,
            DepartAt = departAt,
            Conveyance = conveyance,
            HeldElevators = form.HeldElevators ? null : false,
            WithHelper = form.WithHelper ? null : false,
            Officers = officers is { } count ? before?.Officers is { } had && had.Count == count ? had : new() { Count = count } : null,
            AvoidUnknown = form.AvoidUnknown,
        };
    }

    /// <summary>A problem of the API as entries of the page: each field's words, or the one sentence.</summary>
    public static IReadOnlyList<EntryProblem> Problems(ProblemDetails problem, PlanRequest request)
    {
        var errors = problem is HttpValidationProblemDetails validation
            ? validation.Errors
            : problem.Extensions.TryGetValue("errors", out var given) && given is IDictionary<string, string[]> named ? named : null;
        return errors is null
            ? [new("From", problem.Detail ?? "The plan could not be made.")]
            : [.. errors.SelectMany(e => e.Value.Select(words => new EntryProblem(FieldOf(e.Key, request), words)))];
    }

    private static string FieldOf(string path, PlanRequest request)
    {
        if (request.Batteries.Index().FirstOrDefault(pair => path.StartsWith($"batteries[{pair.Index}]", StringComparison.Ordinal)) is { Item: not null } battery)
        {
            return BatteryEntry.FieldOf(battery.Index, path[(path.LastIndexOf('.') + 1)..]);
        }

        if (path == "avoidUnknown" || path.StartsWith("conveyance.", StringComparison.Ordinal))
        {
            var member = path[(path.LastIndexOf('.') + 1)..];
            return $"{char.ToUpperInvariant(member[0])}{member[1..]}";
        }

        var at = PlanCylinders.Fields(request.Cylinders).Index().FirstOrDefault(pair => path.StartsWith($"cylinders[{pair.Index}]", StringComparison.Ordinal)).Item;
        return at.Field is not null ? $"{at.Field}.{(path.EndsWith("sizeId", StringComparison.Ordinal) ? "Size" : "Gauge")}" : path == "to" ? "To" : "From";
    }

    private static string? PlaceOf(FloorPlan plan, string field, string purpose, string? typed, Entries entries)
    {
        if (string.IsNullOrWhiteSpace(typed))
        {
            entries.Need(field, given: false, $"Give the place to {purpose}, by number or name.");
            return null;
        }

        var found = PlaceFinder.Find(plan, typed);
        entries.Need(field, found.Count > 0, $"No place is called \"{typed.Trim()}\". Type its number, or a word of its name.");
        entries.Need(field, found.Count <= 1, $"\"{typed.Trim()}\" could be {string.Join(", ", found.Select(p => $"{p.Number} {p.Name}"))}. Type the number.");
        return found.Count == 1 ? found[0].Number : null;
    }

    private static ConveyanceRequest? ConveyanceOf(PlanForm form, Entries entries)
    {
        var most = (decimal)Conveyance.MaxMetres;
        var length = entries.Number("LengthMetres", "Length", form.LengthMetres, 0.1m, most, "m");
        var width = entries.Number("WidthMetres", "Width", form.WidthMetres, 0.1m, most, "m");
        var height = entries.Number("HeightMetres", "Height", form.HeightMetres, 0.1m, most, "m");
        var mass = entries.Number("MassKilograms", "Mass", form.MassKilograms, 1, (decimal)Conveyance.MaxKilograms, "kg");
        var crew = entries.Whole("Crew", "Crew", form.Crew, 1, Conveyance.MaxCrew, "people");
        if (length is null && width is null && height is null && mass is null && crew is null)
        {
            return null;
        }

        // Whoever changes one figure keeps the assumed ones for the rest.
        var incubator = Conveyance.AssumedIncubator;
        return new()
        {
            LengthMetres = (double?)length ?? incubator.Length.Metres,
            WidthMetres = (double?)width ?? incubator.Width.Metres,
            HeightMetres = (double?)height ?? incubator.Height.Metres,
            MassKilograms = (double?)mass ?? incubator.MassKilograms,
            Crew = crew,
        };
    }

    private static DateTimeOffset? DepartureOf(PlanForm form, FloorPlan plan, Entries entries)
    {
        if (string.IsNullOrWhiteSpace(form.DepartAt))
        {
            return null;
        }

        var zone = TimeZoneInfo.FindSystemTimeZoneById(plan.TimeZone);
        var read = DateTime.TryParse(form.DepartAt, CultureInfo.InvariantCulture, DateTimeStyles.None, out var local);
        entries.Need("DepartAt", read, "Give date and time, such as 2026-05-04T02:10, or leave it empty for now.");
        entries.Need("DepartAt", !read || !zone.IsInvalidTime(local), "That hour does not exist: the clocks go forward. Give a time before or after it.");
        return read && !zone.IsInvalidTime(local) ? new DateTimeOffset(local, zone.GetUtcOffset(local)).ToUniversalTime() : null;
    }
}
