namespace TransportPlanner.Core.Gas;

/// <summary>How fast a gas is drawn: one flow, and another from the minute at which the other gas of the blend has ended.</summary>
internal sealed record Draw(Rational Flow, Rational? OtherEndsAt, Rational FlowAfter)
{
    internal Rational FlowAt(Rational minute) => OtherEndsAt is { } end && minute >= end ? FlowAfter : Flow;

    internal Rational Litres(Rational from, Rational to)
    {
        var turn = OtherEndsAt is { } end ? Rational.Min(Rational.Max(end, from), to) : to;
        return (turn - from) * Flow + (to - turn) * FlowAfter;
    }

    /// <summary>When so many litres are gone; null: never.</summary>
    internal Rational? EmptyAt(Rational from, Rational litres)
    {
        var before = OtherEndsAt is { } end ? Litres(from, Rational.Max(end, from)) : Rational.Zero;
        return OtherEndsAt is { } turn && litres >= before
            ? FlowAfter.IsPositive ? Rational.Max(turn, from) + (litres - before) / FlowAfter : null
            : Flow.IsPositive ? from + litres / Flow : null;
    }
}

/// <summary>A connected cylinder: from when to when, and when it is empty.</summary>
internal sealed record Connected(int Number, Rational From, Rational? Until, Rational Litres, Rational LitresLow);

/// <summary>One gas along the journey, at the figures as typed and at the low end of the band. Change-overs follow the low end.</summary>
internal sealed class GasTrack
{
    private readonly GasRequest _request;
    private readonly JourneyStops _journey;
    private readonly GasKind _gas;
    private readonly List<(int Number, Rational Litres, Rational LitresLow)> _cylinders;
    private readonly Draw _draw;
    private readonly Draw _drawLow;
    private readonly List<Connected> _connected;

    private GasTrack(
        GasKind gas, GasRequest request, JourneyStops journey, List<(int Number, Rational Litres, Rational LitresLow)> cylinders, Draw draw, Draw drawLow)
    {
        (_gas, _request, _journey, _cylinders, _draw, _drawLow) = (gas, request, journey, cylinders, draw, drawLow);
        IsFromCylinders = gas == GasKind.Oxygen || request.Demand.AirSource == AirSource.Cylinder;
        _connected = IsFromCylinders ? Connect(ChangeOverPlace.Best) : [];
        // Outlets first; where the gas then falls short and waiting for any other stop makes it last longer, that.
        if (EndOf(_connected, _drawLow, low: true) < journey.Minutes && Connect(ChangeOverPlace.Possible) is var anywhere
            && EndOf(anywhere, _drawLow, low: true) > EndOf(_connected, _drawLow, low: true))
            _connected = anywhere;
        (End, EndLow) = (EndOf(_connected, _draw, low: false), EndOf(_connected, _drawLow, low: true));
    }

    internal bool IsFromCylinders { get; }

    /// <summary>True where the demand draws it or a cylinder of it stands ready.</summary>
    private bool IsThere => _cylinders.Count > 0 || _draw.Flow.IsPositive;

    /// <summary>When the last cylinder is empty; null: never, because the gas is not drawn from cylinders.</summary>
    internal Rational? End { get; }
    internal Rational? EndLow { get; }

    internal GasContents Contents => new(
        _gas, [.. _connected.Select(InUse)], End?.Down(3), EndLow?.Down(3), EndLow is not { } end || end >= _journey.Minutes);

    /// <summary>Which cylinders the end speaks of, where there are several: <c>cylinders 1, 2 in turn</c>, and what stays unopened; empty for one or none.</summary>
    internal string WhichCylinders
    {
        get
        {
            var used = _connected.ConvertAll(use => use.Number);
            var unopened = _cylinders.ConvertAll(cylinder => cylinder.Number).FindAll(number => !used.Contains(number));
            return _cylinders.Count < 2 || used.Count == 0 ? ""
                : $" ({(used.Count == 1 ? $"cylinder {used[0]}" : $"cylinders {string.Join(", ", used)} in turn")}"
                    + (unopened.Count == 0 ? ")" : $"; {(unopened.Count == 1 ? "cylinder" : "cylinders")} {string.Join(", ", unopened)} unopened and not counted here)");
        }
    }

    internal IEnumerable<ChangeOver> ChangeOvers
    {
        get
        {
            if (_connected.Count > 0 && _connected[0].Number != _cylinders[0].Number)
                yield return BeforeLeaving();
            for (var i = 1; i < _connected.Count; i++)
                yield return ChangeTo(i);
        }
    }

    internal static GasTrack Of(GasKind gas, GasRequest request, JourneyStops journey)
    {
        var celsius = request.CylinderCelsius ?? GasRequest.AssumedCelsius;
        var cylinders = request.Cylinders.Select((cylinder, i) => (Cylinder: cylinder, Number: i + 1)).Where(pair => pair.Cylinder.Gas == gas)
            .Select(pair => (pair.Number, CylinderAmount.Of(pair.Cylinder, celsius).Litres, CylinderAmount.LowestOf(pair.Cylinder, celsius).Litres)).ToList();
        var flow = request.Demand.ExactFlowOf(gas);
        return new(gas, request, journey, cylinders, new(flow, null, flow), Low(new(flow, null, flow), request));
    }

    /// <summary>The same gas when it must also give what the other gave, from the other's end on.</summary>
    internal GasTrack AfterTheOtherEnds(GasTrack other)
    {
        var full = _gas == GasKind.Oxygen ? _request.Demand.OxygenAloneFlow : _request.Demand.AirAloneFlow;
        var ends = other.IsFromCylinders && other.End is { } end && (End is not { } own || end < own);
        var endsLow = other.IsFromCylinders && other.EndLow is { } low && (EndLow is not { } ownLow || low < ownLow);
        return !IsThere || (!ends && !endsLow)
            ? this
            : new(
                _gas, _request, _journey, _cylinders, ends ? _draw with { OtherEndsAt = other.End, FlowAfter = full } : _draw,
                endsLow ? Low(new(_draw.Flow, other.EndLow, full), _request) : _drawLow);
    }

    internal Rational FlowAt(Rational minute, bool low) => (low ? _drawLow : _draw).FlowAt(minute);

    /// <summary>Litres left at a minute in the connected cylinder, and in those not yet opened where <paramref name="withReserve"/>.</summary>
    internal Rational LitresAt(Rational minute, bool low, bool withReserve)
    {
        var draw = low ? _drawLow : _draw;
        var now = _connected.LastOrDefault(use => use.From <= minute);
        if (now is null)
            return Rational.Zero;
        var left = Rational.Max(Rational.Zero, LitresOf(now, low) - draw.Litres(now.From, minute));
        var used = _connected.Where(use => use.From <= minute).Select(use => use.Number).ToHashSet();
        return withReserve
            ? _cylinders.Where(cylinder => !used.Contains(cylinder.Number)).Aggregate(left, (sum, cylinder) => sum + (low ? cylinder.LitresLow : cylinder.Litres))
            : left;
    }

    private static Draw Low(Draw draw, GasRequest request)
    {
        var tooMuch = ErrorBand.FlowFactor(request.Demand);
        return draw with { Flow = draw.Flow * tooMuch, FlowAfter = draw.FlowAfter * tooMuch };
    }

    private static Rational LitresOf(Connected use, bool low) => low ? use.LitresLow : use.Litres;

    /// <summary>When the gas ends: without a cylinder at once, or as soon as the other gas leaves it alone.</summary>
    private Rational? EndOf(List<Connected> connected, Draw draw, bool low)
    {
        if (!IsFromCylinders)
            return null;
        foreach (var use in connected)
        {
            // A cylinder that is empty before its change-over ends the gas there.
            if (draw.EmptyAt(use.From, LitresOf(use, low)) is { } empty && (use.Until is not { } until || empty < until))
                return empty;
        }

        return connected.Count > 0 ? null : draw.EmptyAt(Rational.Zero, Rational.Zero);
    }

    private List<Connected> Connect(ChangeOverPlace least)
    {
        var (waiting, from, connected) = (_cylinders.ToList(), Rational.Zero, new List<Connected>());
        while (waiting.Count > 0)
        {
            // A cylinder that reaches neither the end nor a stop is passed over for one that does, and stays as a reserve.
            var reaching = waiting.FindIndex(cylinder => EmptyAt(cylinder.LitresLow) is not { } end || end >= _journey.Minutes || StopBefore(end) is not null);
            var next = reaching >= 0 ? waiting[reaching] : waiting.MaxBy(cylinder => cylinder.LitresLow);
            var empty = EmptyAt(next.LitresLow);
            if (connected is [.., var old])
            {
                // A change-over that gains no minute is not made.
                if (empty <= _drawLow.EmptyAt(old.From, old.LitresLow))
                    break;
                connected[^1] = old with { Until = from };
            }

            connected.Add(new(next.Number, from, null, next.Litres, next.LitresLow));
            waiting.Remove(next);
            if (empty is not { } low || low >= _journey.Minutes || StopBefore(low) is not { } stop)
                break;
            from = stop.At;
        }

        return connected;

        Rational? EmptyAt(Rational litres) => _drawLow.EmptyAt(from, litres);

        JourneyStop? StopBefore(Rational empty) =>
            _journey.LatestOf(least, from, empty) ?? _journey.LatestOf(ChangeOverPlace.Possible, from, empty);
    }

    private CylinderInUse InUse(Connected use)
    {
        var empty = _draw.EmptyAt(use.From, use.Litres);
        var until = Rational.Min(use.Until ?? _journey.Minutes, _journey.Minutes);
        if (empty is { } end)
            until = Rational.Min(until, end);
        Rational[] minutes = _draw.OtherEndsAt is { } turn && turn > use.From && turn < until ? [use.From, turn, until] : [use.From, until];
        return new(
            use.Number, use.From.Down(3), until.Down(3), empty?.Down(3), _drawLow.EmptyAt(use.From, use.LitresLow)?.Down(3),
            [.. minutes.Select(minute => new ContentsAt(minute.Down(3), (use.Litres - _draw.Litres(use.From, minute)).Down(3)))]);
    }

    private ChangeOver BeforeLeaving()
    {
        var (skipped, first) = (_cylinders[0], _connected[0]);
        var empty = _drawLow.EmptyAt(Rational.Zero, skipped.LitresLow)!.Value;
        return new(
            _gas, skipped.Number, first.Number, 0, "before leaving", ChangeOverPlace.Best,
            $"cylinder {skipped.Number} may be empty at minute {GasText.Number(empty.Down(1))}, before any place where it can be changed: leave with cylinder "
            + $"{first.Number} connected, which may be empty at minute {GasText.Number(_drawLow.EmptyAt(Rational.Zero, first.LitresLow)!.Value.Down(1))}");
    }

    private ChangeOver ChangeTo(int index)
    {
        var (old, next) = (_connected[index - 1], _connected[index]);
        var stop = _journey.Stretches.Last(stretch => stretch.At == next.From && stretch.Stretch.ChangeOver != ChangeOverPlace.Impossible).Stretch;
        var empty = _drawLow.EmptyAt(old.From, old.LitresLow)!.Value;
        var left = old.Litres - _draw.Litres(old.From, next.From);
        var what = stop.ChangeOver == ChangeOverPlace.Best ? "the latest outlet before that" : "the latest place to stand still before that";
        return new(
            _gas, old.Number, next.Number, next.From.Down(3), stop.Name, stop.ChangeOver,
            $"cylinder {old.Number} may be empty at minute {GasText.Number(empty.Down(1))}, the journey ends at minute {GasText.Number(_journey.Minutes, 1)}; {what} is reached "
            + $"at minute {GasText.Number(next.From.Down(1))}; about {GasText.Number(Rational.Max(Rational.Zero, left).Down(0))} L stay in it")
        { PlaceNumber = stop.PlaceNumber };
    }
}
