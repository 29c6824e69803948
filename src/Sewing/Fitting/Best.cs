namespace HeirloomArchive.Sewing.Fitting;

/// <summary>The best so many of those added, in order.</summary>
internal sealed class Best<T>(IComparer<T> order, int most)
    where T : struct
{
    private readonly List<T> items = new(most + 1);

    public IReadOnlyList<T> Items => items;

    /// <summary>The last of them once there are as many as are kept; null before.</summary>
    public T? Worst => items.Count == most ? items[^1] : null;

    /// <summary>False when it is not among the best so far.</summary>
    public bool Add(T item)
    {
        if (items.Count == most)
        {
            if (order.Compare(item, items[^1]) >= 0)
            {
                return false;
            }

            items.RemoveAt(most - 1);
        }

        items.Insert(~items.BinarySearch(item, order), item);
        return true;
    }
}
